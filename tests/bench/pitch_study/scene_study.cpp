// The second table of docs/measuring-studies.md: scenes as real recordings hold them, what Sectio
// hears in them, and the pitch methods of aubio beside it, which are told when each note sounds.
//
//   build/tests/bench/scene_study 20          # scenes a kind
//   build/tests/bench/scene_study 20 drone    # kinds whose name holds this, note by note
//   build/tests/bench/scene_study 20 "" 401   # scenes from this number on

#include "aubio_pitch.hpp"
#include "scenes.hpp"

#include <sectio/base/error.hpp>
#include <sectio/measure/heard_pitches.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <map>

namespace {

using pitch_study::Played;
using pitch_study::quantile;
using pitch_study::Scene;
using sectio::measure::RecordedNote;

constexpr double right_cents = 5;

struct Tally {
    int played = 0, right = 0, found = 0, held = 0, pitches = 0, extra_notes = 0, wrong_pitches = 0;
    std::vector<double> errors{}, starts{};
    double sounded_s = 0, worked_s = 0;
    std::map<std::string, int> others{};
};

double cents(double hz, double reference) {
    return 1200 * std::log2(hz / reference);
}

double common_s(const RecordedNote& note, const Played& played) {
    return std::min(note.end_s, played.end_s) - std::max(note.start_s, played.start_s);
}

/// The heard note that shares most time with the played one.
const RecordedNote* match(const std::vector<RecordedNote>& notes, const Played& played) {
    const auto best = std::max_element(notes.begin(), notes.end(),
                                       [&](const RecordedNote& a, const RecordedNote& b) {
                                           return common_s(a, played) < common_s(b, played);
                                       });
    return best != notes.end() && common_s(*best, played) > 0.1 ? &*best : nullptr;
}

void judge(Tally& tally, const Played& played, const RecordedNote* note, bool talk) {
    ++tally.played;
    if (talk && note)
        fmt::print("  {:.2f} s {:.2f} Hz: {:+.3f} ± {:.3f} c, start {:+.0f} ms, {:.0f} dB, "
                   "partials {}, wander {:.2f}\n",
                   played.start_s, played.hz, cents(note->pitch.hz, played.hz),
                   note->pitch.half_width_cents, 1000 * (note->start_s - played.start_s),
                   note->level_db, note->pitch.partials, note->pitch.wander_cents);
    else if (talk)
        fmt::print("  {:.2f} s {:.2f} Hz: none\n", played.start_s, played.hz);
    if (!note)
        return;
    const double error = std::abs(cents(note->pitch.hz, played.hz));
    tally.right += error < right_cents;
    if (error > 100)
        return;
    ++tally.found;
    tally.held += error <= note->pitch.half_width_cents;
    tally.errors.push_back(error);
    tally.starts.push_back(std::abs(note->start_s - played.start_s));
}

void by_sectio(Tally& tally, const Scene& scene, bool talk) {
    const std::clock_t start = std::clock();
    sectio::measure::Hearing hearing;
    try {
        hearing = sectio::measure::hear(
            {sectio::measure::listen(scene.sound, pitch_study::scene_rate, "scene")});
    } catch (const sectio::Error& e) {
        if (talk)
            fmt::print("  {}\n", e.what());
    }
    tally.worked_s += static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    const std::vector<RecordedNote> notes =
        hearing.recordings.empty() ? std::vector<RecordedNote>() : hearing.recordings[0].notes;
    std::vector<const RecordedNote*> used;
    for (const Played& played : scene.played) {
        used.push_back(match(notes, played));
        judge(tally, played, used.back(), talk);
    }
    for (const RecordedNote& note : notes)
        if (std::find(used.begin(), used.end(), &note) == used.end()) {
            ++tally.extra_notes;
            if (talk)
                fmt::print("  extra at {:.2f}-{:.2f} s: {:.2f} Hz ± {:.2f} c, {:.0f} dB\n",
                           note.start_s, note.end_s, note.pitch.hz, note.pitch.half_width_cents,
                           note.level_db);
        }
    tally.pitches += static_cast<int>(hearing.pitches.size());
    for (const auto& pitch : hearing.pitches)
        tally.wrong_pitches +=
            std::none_of(scene.played.begin(), scene.played.end(),
                         [&](const Played& p) { return std::abs(cents(pitch.hz, p.hz)) < 15; });
}

#ifdef SECTIO_AUBIO
void by_aubio(Tally& tally, const Scene& scene) {
    for (const char* method : {"fcomb", "mcomb", "schmitt", "specacf", "yinfast", "yinfft"})
        for (const Played& played : scene.played) {
            const auto at = [&](double s) {
                return std::min(scene.sound.size(),
                                static_cast<std::size_t>(s * pitch_study::scene_rate));
            };
            const auto sound =
                std::span(scene.sound)
                    .subspan(at(played.start_s), at(played.end_s) - at(played.start_s));
            tally.others[method] +=
                std::abs(cents(pitch_study::median_by_aubio(method, sound), played.hz))
                < right_cents;
        }
}
#endif

void print(const std::string& kind, const Tally& t) {
    fmt::print("| {} | {} | {} | {:.3f} | {:.2f} | {} | {} | {} | {:.0f} | {:.0f} |", kind,
               t.played, t.right, quantile(t.errors, 0.5), quantile(t.errors, 0.95),
               t.found > 0 ? fmt::format("{:.0f}", 100.0 * t.held / t.found) : "", t.extra_notes,
               t.wrong_pitches, 1000 * quantile(t.starts, 0.5), t.sounded_s / t.worked_s);
    for (const auto& [method, right] : t.others)
        fmt::print(" {} |", right);
    fmt::print("\n");
    std::fflush(stdout);
}

} // namespace

int main(int count, char** arguments) {
    const int scenes = count > 1 ? std::atoi(arguments[1]) : 10;
    const std::string wanted = count > 2 ? arguments[2] : "";
    const int first = count > 3 ? std::atoi(arguments[3]) : 1;
    const bool talk = !wanted.empty();
    fmt::print(
        "| scene | notes | right within 5 c | median c | 95 of 100 | held, % | notes too many "
        "| pitches nobody plays | start off, ms | times real time |\n");
    for (const std::string& kind : pitch_study::scene_kinds()) {
        if (kind.find(wanted) == std::string::npos)
            continue;
        Tally tally;
        for (int seed = first; seed < first + scenes; ++seed) {
            const Scene scene = pitch_study::scene(kind, static_cast<std::uint32_t>(seed));
            if (talk)
                fmt::print("{} {}\n", kind, seed);
            tally.sounded_s += static_cast<double>(scene.sound.size()) / pitch_study::scene_rate;
            by_sectio(tally, scene, talk);
#ifdef SECTIO_AUBIO
            if (!talk && !std::getenv("ALONE"))
                by_aubio(tally, scene);
#endif
        }
        print(kind, tally);
    }
}
