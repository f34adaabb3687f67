#pragma once
/// @file
/// The few different pitches among many notes: each is read and tuned once.

#include <sectio/base/argument.hpp>
#include <sectio/score/annotation.hpp>

#include <algorithm>
#include <unordered_map>

namespace sectio::score {

/// Notes that are read and tuned alike.
struct NoteClass {
    std::variant<WrittenPitch, Unreadable> written;
    WrittenPitch nominal;   ///< letter and octave with the sign's plain meaning, to name it by
    WrittenPitch effective; ///< that meets the tuning: sounding or written
    /// From the key that the player reads, as it sounds in 12 equal steps, up to that of
    /// `effective`: an F half-sharp for a B-flat clarinet counts from F, which sounds E♭, while the
    /// E half-flat that it sounds would count from E.
    Rational keys_off = 0;
    Outcome outcome = Lacking{};      ///< from the key that the player reads
    std::string label;                ///< the text in the score
    Sign sign = no_sign;              ///< as printed
    std::size_t count = 0;            ///< notes annotated
    std::vector<std::uint16_t> parts; ///< that have such notes

    void add_part(std::uint16_t part) {
        if (parts.empty()
            || (parts.back() != part && std::find(parts.begin(), parts.end(), part) == parts.end()))
            parts.push_back(part);
    }
};

class NoteClasses {
  public:
    NoteClasses(const Score& score, const Reading& reading, PitchKind pitch)
        : score_(score), reading_(reading), pitch_(pitch) {}

    /// The class of `note`, made at its first appearance.
    std::uint32_t of(const Note& note);
    /// Tunes all classes and writes their labels.
    void tune(const NoteTuning& tuning, int places);

    /// `index`: as of() gave it.
    NoteClass& operator[](std::uint32_t index) {
        check_argument(index < classes_.size(), "a class of notes", "one that was made");
        return classes_[index];
    }
    const std::vector<NoteClass>& all() const { return classes_; }

  private:
    NoteClass made(const Note& note) const;

    const Score& score_;
    const Reading& reading_;
    PitchKind pitch_;
    std::vector<NoteClass> classes_;
    struct Key {
        std::uint64_t high, low;
        bool operator==(const Key&) const = default;
    };
    struct Hash {
        std::size_t operator()(const Key& key) const {
            return (key.high * 0x9E3779B97F4A7C15ULL) ^ (key.low * 0xC2B2AE3D27D4EB4FULL);
        }
    };
    std::unordered_map<Key, std::uint32_t, Hash> places_;
};

} // namespace sectio::score
