#include <sectio/base/argument.hpp>
#include <sectio/tuning/tempo_map.hpp>

#include <algorithm>

namespace sectio::midi {

namespace {

constexpr std::uint32_t default_tempo = 500'000; // microseconds: 120 quarter notes a minute

std::vector<Event> tempos_of(const File& file, std::size_t piece) {
    std::vector<Event> tempos;
    for (std::size_t i = 0; i < file.tracks.size(); ++i) {
        if (file.format == 2 && i != piece)
            continue;
        for (const Event& event : file.tracks[i].events)
            if (event.is_meta(meta::tempo))
                tempos.push_back(event);
    }
    std::stable_sort(tempos.begin(), tempos.end(),
                     [](const Event& a, const Event& b) { return a.time < b.time; });
    return tempos;
}

/// A tick of a part of a frame. "-29" is 30 drop frame: 30 000/1001 frames a second.
Rational frame_tick(TimeBase base) {
    const Rational frames = base.frames == 29 ? Rational(30'000, 1001) : Rational(base.frames);
    return Rational(1) / (frames * Integer(base.ticks));
}

} // namespace

void check(const TimeBase& base) {
    const int most = base.frames == 0 ? 32767 : 255;
    check_argument(base.ticks > 0 && base.ticks <= most && base.frames >= 0 && base.frames <= 30,
                   "a time base", "as TimeBase says");
}

TempoMap::TempoMap(const File& file, std::size_t piece) {
    const TimeBase base = file.time_base;
    check(base);
    if (base.frames != 0) {
        stretches_.push_back({0, 0, frame_tick(base)}); // a tempo changes nothing
        return;
    }
    const auto tick = [&](std::uint32_t microseconds) {
        return Rational(microseconds, Integer(1'000'000) * base.ticks);
    };
    stretches_.push_back({0, 0, tick(default_tempo)});
    for (const Event& event : tempos_of(file, piece))
        stretches_.push_back({event.time, seconds(event.time), tick(microseconds_of(event))});
}

Rational TempoMap::seconds(Ticks time) const {
    check_argument(time >= 0, "a time in ticks", "from 0 on");
    const auto after =
        std::upper_bound(stretches_.begin(), stretches_.end(), time,
                         [](Ticks t, const Stretch& stretch) { return t < stretch.begin; });
    const Stretch& stretch = *std::prev(after);
    return stretch.start + stretch.tick * Rational(Integer(time - stretch.begin));
}

} // namespace sectio::midi
