#pragma once
/// @file
/// Private to lib/tuning: playing by pitch bend. Used by perform().

#include <sectio/tuning/channel_pool.hpp>
#include <sectio/tuning/channel_renderer.hpp>

#include <unordered_map>

namespace sectio::tuning {

/// A pitch as a key and a pitch bend.
struct BentKey {
    int key = 60;
    int bend = 8192;
    Interval error; ///< of what sounds from the pitch
    bool counted = false;
};

class BendRenderer : public ChannelRenderer {
  public:
    BendRenderer(const Performance& music, const PerformOptions& options);

  private:
    Place placed(const PlayedNote& note) override;
    void bend_voice(const PlayedMessage& message) override;
    void pass_on(const PlayedMessage& message) override;
    void set_up() override;
    Interval unbent_error(const PlayedNote& note) override { return bent_key(note.pitch, 0).error; }

    BentKey& bent_key(std::uint32_t pitch, std::int64_t bent);
    OutputChannel* channel_for(const PlayedNote& note, BentKey& bent);
    Interval error_at(OutputChannel& channel, const PlayedNote& note, int key) const;
    Interval unit() const { return Interval::from_steps(range_, 12 * 8192); }

    bool zone_;
    int range_ = 0; ///< semitones of a full bend of a note's channel
    ChannelPool pool_;
    std::vector<std::uint32_t> channel_pitch_; ///< of the last note on each of the 16 channels
    std::vector<std::unordered_map<std::int64_t, BentKey>> bent_; ///< by pitch, then by own bend
};

} // namespace sectio::tuning
