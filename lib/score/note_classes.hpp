#pragma once
/// @file
/// The few different pitches among many notes: each is read and tuned once.

#include <sectio/score/annotation.hpp>

#include <unordered_map>

namespace sectio::score {

/// Notes that are read and tuned alike.
struct NoteClass {
    std::variant<WrittenPitch, Unreadable> written;
    WrittenPitch nominal;   ///< letter and octave with the sign's plain meaning, to name it by
    WrittenPitch effective; ///< that meets the tuning: sounding or written
    Outcome outcome = Lacking{};
    std::string label;     ///< the text in the score
    Sign sign = no_sign;   ///< as printed
    std::size_t count = 0; ///< notes annotated
};

class NoteClasses {
  public:
    NoteClasses(const Score& score, const Reading& reading, PitchKind pitch)
        : score_(score), reading_(reading), pitch_(pitch) {}

    /// The class of `note`, made at its first appearance.
    std::uint32_t of(const Note& note);
    /// Tunes all classes and writes their labels.
    void tune(const NoteTuning& tuning, int places);

    NoteClass& operator[](std::uint32_t index) { return classes_[index]; }
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
