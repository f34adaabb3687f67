#pragma once
/// @file
/// Music as samples, block by block: an hour of it needs no more memory than its notes.

#include <sectio/base/progress.hpp>
#include <sectio/sound/music.hpp>
#include <sectio/sound/tone.hpp>

#include <functional>
#include <span>
#include <string_view>

namespace sectio::sound {

/// Plays from the beginning on. The sound is as loud as it can be without a sample beyond `peak`:
/// the greatest sum of what the strings and the drones can reach at one time makes the peak. The
/// first five seconds swell from a tenth of the strength.
class MusicSound {
  public:
    /// `music` must live as long.
    explicit MusicSound(const Music& music);

    std::int64_t frames() const { return frames_; }
    /// Fills `samples` with the next ones; after the last there is silence.
    void next(std::span<float> samples);

  private:
    struct String {
        std::uint16_t instrument;
        double hz; ///< as the scale has it, without a bend
        SoundingTone tone;
    };

    bool next_is_bend() const;
    std::int64_t next_frame() const;
    void take_next();
    void sound_to(std::span<float> samples, std::int64_t frame);

    const Music& music_;
    std::int64_t frames_, at_ = 0, next_ = 0; ///< next_: of the next note or bend
    double gain_;
    std::size_t note_ = 0, bend_ = 0; ///< that come next
    std::vector<double> hertz_;       ///< of Music::pitches
    std::vector<String> sounding_;
    std::vector<SoundingTone> drones_;
};

/// The greatest sum of the levels of what sounds at one time, strings as they have decayed.
double greatest_level(const Music& music);

/// Hands a WAVE file of the music to `sink`, piece by piece.
void write_music(const Music& music, const std::function<void(std::string_view)>& sink,
                 const Progress& progress = {});

} // namespace sectio::sound
