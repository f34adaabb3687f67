#include <sectio/base/limits.hpp>
#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/play_order.hpp>

#include <numeric>

namespace sectio::tuning {

namespace {

[[noreturn]] void refuse_length() {
    throw error(message::performance_too_long, "", {}, limits::performed_notes);
}

/// The walk through the bars. It ends: each way back raises `pass_`, which repeats bound by their
/// times and endings by their 31 bits, and the place to go back to never falls.
class Walk {
  public:
    explicit Walk(const std::vector<score::Bar>& bars) : bars_(bars) {}

    std::vector<PlayedBar> run() {
        for (std::size_t at = 0; at < bars_.size();) {
            if (bars_[at].repeat_begins && at != back_to_)
                begin_section(at);
            if (bars_[at].passes != 0 && !has_pass(bars_[at].passes, pass_)) {
                at = behind_ending(at);
                continue;
            }
            if (bars_[at].passes != 0)
                ending_ = bars_[at].passes;
            if (order_.size() == limits::performed_notes)
                refuse_length();
            order_.push_back({static_cast<std::uint32_t>(at), pass_});
            at = next(at);
        }
        return std::move(order_);
    }

  private:
    static bool has_pass(std::uint32_t passes, int pass) {
        return pass <= 31 && (passes >> (pass - 1) & 1U) != 0;
    }

    void begin_section(std::size_t at) {
        back_to_ = at;
        pass_ = 1;
        ending_ = 0;
    }

    std::size_t behind_ending(std::size_t at) const {
        while (at < bars_.size() && !bars_[at].ending_ends)
            ++at;
        return at + 1;
    }

    std::size_t next(std::size_t at) {
        const score::Bar& bar = bars_[at];
        if (bar.times > 0) {
            const bool other_ending =
                at + 1 < bars_.size() && has_pass(bars_[at + 1].passes, pass_ + 1);
            const bool again = pass_ < bar.times
                               || (ending_ != 0 && (has_pass(ending_, pass_ + 1) || other_ending));
            if (again) {
                ++pass_;
                ending_ = 0;
                return back_to_;
            }
            begin_section(at + 1);
        } else if (bar.ending_ends) {
            begin_section(at + 1);
        }
        return at + 1;
    }

    const std::vector<score::Bar>& bars_;
    std::vector<PlayedBar> order_;
    std::size_t back_to_ = 0;
    int pass_ = 1;
    std::uint32_t ending_ = 0; ///< the passes of the ending that is being played; 0 outside
};

} // namespace

int ticks_for(const score::Score& score) {
    constexpr std::int64_t most = 15'360, otherwise = 20'160, fine_enough = 480;
    std::int64_t ticks = 1;
    const auto take = [&](score::QuarterNotes time) {
        ticks = ticks > most ? ticks : std::lcm(ticks, time.den());
    };
    for (const score::Note& note : score.notes) {
        take(note.onset);
        take(note.duration);
    }
    for (const score::Bar& bar : score.bars)
        take(bar.end);
    if (ticks > most)
        return otherwise;
    return static_cast<int>(ticks * ((fine_enough + ticks - 1) / ticks));
}

std::vector<score::Bar> common_bars(const score::Score& score) {
    std::vector<score::Bar> bars;
    for (const score::Part& part : score.parts)
        for (std::size_t i = part.first_bar; i < part.end_bar; ++i) {
            const std::size_t at = i - part.first_bar;
            if (at == bars.size())
                bars.emplace_back();
            const score::Bar& bar = score.bars[i];
            score::Bar& common = bars[at];
            common.end = std::max(common.end, bar.end - bar.start); // from 0: a length
            common.repeat_begins = common.repeat_begins || bar.repeat_begins;
            common.times = std::max(common.times, bar.times);
            common.passes |= bar.passes;
            common.ending_ends = common.ending_ends || bar.ending_ends;
        }
    return bars;
}

std::vector<PlayedBar> play_order(const std::vector<score::Bar>& bars) {
    return Walk(bars).run();
}

void check_length(const score::Score& score, const std::vector<PlayedBar>& order) {
    const auto note_at = first_of_bars(score.notes, score.bars.size(),
                                       [](const score::Note& note) { return note.measure; });
    const auto mark_at = first_of_bars(score.played, score.bars.size(),
                                       [](const score::PlayingMark& mark) { return mark.bar; });
    std::size_t notes = 0, bars = 0, marks = 0;
    const auto add = [&](std::size_t bar) {
        notes += note_at[bar + 1] - note_at[bar];
        marks += mark_at[bar + 1] - mark_at[bar];
        ++bars;
    };
    for (const PlayedBar& played : order) {
        in_each_part(score, played.bar, add);
        if (std::max({notes, bars, marks}) > limits::performed_notes)
            refuse_length();
    }
}

} // namespace sectio::tuning
