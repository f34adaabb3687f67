// A score as music that sounds.

#include <sectio/tuning/grace_notes.hpp>
#include <sectio/tuning/performance.hpp>
#include <sectio/tuning/play_order.hpp>
#include <sectio/tuning/score_pitches.hpp>

#include <algorithm>
#include <limits>
#include <numeric>
#include <tuple>
#include <utility>

namespace sectio::tuning {

namespace {

using score::Note;
using score::QuarterNotes;
using score::Score;

class ScorePerformer {
  public:
    ScorePerformer(const Score& score, const score::ReadingChoice& choice,
                   const score::NoteTuning& tuning, const Pitch& a4)
        : score_(score), reading_(score::choose_reading(score, choice)),
          pitches_(score, reading_, tuning, a4), ticks_(ticks_for(score)),
          note_at_(first_of_bars(score.notes, score.bars.size(),
                                 [](const Note& note) { return note.measure; })),
          mark_at_(first_of_bars(score.played, score.bars.size(),
                                 [](const score::PlayingMark& mark) { return mark.bar; })),
          velocity_(score.parts.size(), score::velocity_of({100, 1})), graces_(ticks_) {
        out_.time_base.ticks = ticks_;
        out_.pitches = pitches_.all();
        out_.cure = tuning.cure();
        out_.words.emplace_back();
    }

    Performance run() {
        set_instruments();
        const std::vector<score::Bar> bars = common_bars(score_);
        const std::vector<PlayedBar> order = play_order(bars);
        check_length(score_, order);
        for (const PlayedBar& played : order) {
            pass_ = played.pass;
            in_each_part(score_, played.bar, [this](std::size_t bar) { play_bar(bar); });
            now_ = now_ + bars[played.bar].end;
        }
        finish();
        return std::move(out_);
    }

  private:
    midi::Ticks tick(QuarterNotes time) const {
        const QuarterNotes exact = time * QuarterNotes(ticks_, 1);
        return (2 * exact.num() + exact.den()) / (2 * exact.den());
    }

    void set_instruments() {
        for (const score::Part& part : score_.parts) {
            const auto index = static_cast<std::uint16_t>(out_.instruments.size());
            out_.instruments.push_back(
                {part.name.empty() ? part.id : part.name, std::nullopt, part.percussion});
            out_.names.parts.push_back(out_.instruments.back().name);
            if (part.program)
                out_.messages.push_back({index, midi::program(0, 0, *part.program)});
        }
        out_.names.measures = score_.measures;
    }

    /// The bar of one part.
    void play_bar(std::size_t bar) {
        bar_start_ = score_.bars[bar].start;
        bar_end_ = score_.bars[bar].end;
        mark_ = mark_at_[bar];
        marks_end_ = mark_at_[bar + 1];
        set_tempos();
        set_programs();
        louder_.clear();
        head_at_ = 0;
        for (std::size_t i = mark_; i < marks_end_; ++i)
            if (const score::PlayingMark& mark = score_.played[i];
                mark.loudness && sounds(mark.passes))
                louder_[{mark.part, place(mark)}] = score::velocity_of(*mark.loudness);
        for (const std::size_t i : notes_in_time(bar))
            take(i);
        graces_.flush(out_.notes);
        for (const auto& [place, velocity] : louder_) // in the order of time within each part
            velocity_[place.first] = velocity;
    }

    /// The notes of a bar, which has voice after voice, as they follow in time: a tie may lead from
    /// a later voice to an earlier one. A chord, and a note with its grace notes, stay together.
    std::vector<std::size_t> notes_in_time(std::size_t bar) const {
        std::vector<std::size_t> notes(note_at_[bar + 1] - note_at_[bar]);
        std::iota(notes.begin(), notes.end(), note_at_[bar]);
        std::stable_sort(notes.begin(), notes.end(), [this](std::size_t a, std::size_t b) {
            return score_.notes[a].onset < score_.notes[b].onset;
        });
        return notes;
    }

    midi::Ticks time_of(QuarterNotes in_part) const { return tick(now_ + (in_part - bar_start_)); }

    void set_tempos() {
        constexpr std::int64_t minute = 60'000'000, most = (1 << 24) - 1;
        for (std::size_t i = mark_; i < marks_end_; ++i)
            if (const auto& tempo = score_.played[i].tempo;
                tempo && sounds(score_.played[i].passes)) {
                const std::int64_t beat = (minute * tempo->den() + tempo->num() / 2) / tempo->num();
                out_.words[0].events.push_back(midi::tempo(
                    time_of(place(score_.played[i])),
                    static_cast<std::uint32_t>(std::clamp<std::int64_t>(beat, 1, most))));
            }
    }

    void set_programs() {
        for (std::size_t i = mark_; i < marks_end_; ++i)
            if (const score::PlayingMark& mark = score_.played[i];
                mark.program && sounds(mark.passes))
                out_.messages.push_back(
                    {mark.part, midi::program(time_of(place(mark)), 0, *mark.program)});
    }

    /// Whether what has this list of passes sounds in the present one.
    bool sounds(std::uint16_t list) const {
        if (list == 0)
            return true;
        const std::vector<int>& passes = score_.pass_lists[list];
        return std::binary_search(passes.begin(), passes.end(), pass_);
    }

    /// Where a mark of the present bar counts.
    QuarterNotes place(const score::PlayingMark& mark) const {
        return std::max(bar_start_, std::min(mark.at, bar_end_));
    }

    /// The velocity of `note`: its own, else by the last mark before it in its bar, else as before.
    int velocity_at(const Note& note) const {
        if (note.velocity > 0)
            return note.velocity;
        const auto after = louder_.upper_bound({note.part, note.onset});
        if (after != louder_.begin() && std::prev(after)->first.first == note.part)
            return std::prev(after)->second;
        return velocity_[note.part];
    }

    void take(std::size_t index) {
        const Note& note = score_.notes[index];
        if (!sounds(note.passes))
            return;
        if (note.is(Note::cue)) {
            ++out_.left_out["cue notes"];
            return;
        }
        const std::uint32_t found = pitches_.class_of(index);
        count_unmatched(note, pitches_.of(found));
        PlayedNote played;
        played.begin = time_of(note.onset);
        played.end = time_of(note.onset + note.duration);
        played.pitch = found;
        played.instrument = note.part;
        played.key =
            static_cast<std::uint8_t>(std::clamp(base_key(pitches_.of(found).nominal), 0, 127));
        played.velocity = static_cast<std::uint8_t>(velocity_at(note));
        if (note.is(Note::grace))
            graces_.add(note.voice, played, note.is(Note::chord));
        else
            keep(played, note);
    }

    void keep(PlayedNote played, const Note& note) {
        // The first of a chord may not sound here, as a cue note or without a pitch.
        if (std::exchange(head_at_, note.head_at) != note.head_at || !note.is(Note::chord))
            shift_ = graces_.place(note.voice, played, out_.notes);
        played.begin += shift_;
        if (note.is(Note::tie_stop) && prolong(played, note))
            return;
        if (note.is(Note::tie_start))
            ties_[tie_of(played, note.voice)] = out_.notes.size();
        out_.notes.push_back(played);
    }

    /// Part, place and alteration of a tied note, as it is read: of two tied notes often only the
    /// first has its sign. Its voice comes last.
    using Tie =
        std::tuple<std::uint16_t, int, char, score::AlterationUnit, Rational, std::uint16_t>;
    using Ties = std::map<Tie, std::size_t>; ///< to notes of the performance

    Tie tie_of(const PlayedNote& played, std::uint16_t voice) const {
        const score::WrittenPitch& pitch = pitches_.of(played.pitch).nominal;
        return {played.instrument,       pitch.octave, pitch.step, pitch.alteration.unit,
                pitch.alteration.amount, voice};
    }

    /// The open tie that ends where `played` begins: of its own voice, else of another.
    Ties::iterator open_tie(const PlayedNote& played, std::uint16_t voice) {
        const auto leads_here = [&](Ties::const_iterator tie) {
            return out_.notes[tie->second].end == played.begin;
        };
        const auto own = ties_.find(tie_of(played, voice));
        if (own != ties_.end() && leads_here(own))
            return own;
        const auto after =
            ties_.upper_bound(tie_of(played, std::numeric_limits<std::uint16_t>::max()));
        for (auto tie = ties_.lower_bound(tie_of(played, 0)); tie != after; ++tie)
            if (leads_here(tie))
                return tie;
        return ties_.end();
    }

    /// Lengthens the note that `played` is tied to, where that ends as it begins.
    bool prolong(const PlayedNote& played, const Note& note) {
        const auto open = open_tie(played, note.voice);
        if (open == ties_.end())
            return false;
        const std::size_t tied = open->second;
        out_.notes[tied].end = played.end;
        ties_.erase(open);
        if (note.is(Note::tie_start))
            ties_[tie_of(played, note.voice)] = tied;
        return true;
    }

    void count_unmatched(const Note& note, const score::NoteClass& found) {
        const auto* lacking = std::get_if<score::Lacking>(&found.outcome);
        if (lacking == nullptr)
            return;
        const auto place = [](std::vector<std::string>& list,
                              std::map<std::string, std::uint32_t>& known, std::string text) {
            const auto [at, added] =
                known.try_emplace(text, static_cast<std::uint32_t>(list.size()));
            if (added)
                list.push_back(std::move(text));
            return at->second;
        };
        out_.unmatched.push_back({note.part, note.measure,
                                  place(out_.names.pitches, pitch_names_,
                                        text_with_octave(found.nominal, score::NameStyle::ascii)),
                                  place(out_.names.reasons, reasons_, lacking->reason)});
    }

    void finish() {
        const auto before = [](const auto& a, const auto& b) { return a.begin < b.begin; };
        std::stable_sort(out_.notes.begin(), out_.notes.end(), before);
        std::stable_sort(
            out_.words[0].events.begin(), out_.words[0].events.end(),
            [](const midi::Event& a, const midi::Event& b) { return a.time < b.time; });
        std::stable_sort(out_.messages.begin(), out_.messages.end(),
                         [](const PlayedMessage& a, const PlayedMessage& b) {
                             return a.event.time < b.event.time;
                         });
        out_.end = tick(now_);
        for (const PlayedNote& note : out_.notes)
            out_.end = std::max(out_.end, note.end);
        out_.words[0].end = out_.end;
        const std::string& work = score_.page.work;
        const std::string& title = work.empty() ? score_.page.movement : work;
        if (!title.empty())
            out_.words[0].events.insert(out_.words[0].events.begin(),
                                        midi::meta_event(0, midi::meta::track_name, title));
        if (score_.without_pitch.unpitched > 0)
            out_.left_out["notes without pitch"] = score_.without_pitch.unpitched;
        if (score_.jumps > 0)
            out_.left_out["da capo, dal segno and coda signs, not followed"] = score_.jumps;
    }

    const Score& score_;
    score::Reading reading_;
    ScorePitches pitches_;
    int ticks_;
    std::vector<std::size_t> note_at_, mark_at_;
    std::vector<int> velocity_; ///< of each part
    Performance out_;
    QuarterNotes now_, bar_start_, bar_end_;
    int pass_ = 1;                         ///< of the present bar
    std::size_t mark_ = 0, marks_end_ = 0; ///< of the present bar
    midi::Ticks shift_ = 0;                ///< of the present chord, after its grace notes
    std::uint64_t head_at_ = 0;            ///< of that chord; of none at the start of a bar
    GraceNotes graces_;                    ///< of the present bar
    std::map<std::pair<std::uint16_t, QuarterNotes>, int>
        louder_; ///< velocities of the present bar
    Ties ties_;  ///< that are open
    std::map<std::string, std::uint32_t> pitch_names_, reasons_;
};

} // namespace

Performance performance_of(const score::Score& score, const score::ReadingChoice& reading,
                           const score::NoteTuning& tuning, const Pitch& a4) {
    return ScorePerformer(score, reading, tuning, a4).run();
}

} // namespace sectio::tuning
