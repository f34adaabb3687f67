#include <sectio/measure/phase_slope.hpp>
#include <sectio/measure/softer_sound.hpp>
#include <sectio/measure/statistics.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

namespace sectio::measure {

namespace {

const Peak* strongest(const std::vector<Partial>& partials) {
    const auto most =
        std::max_element(partials.begin(), partials.end(), [](const Partial& a, const Partial& b) {
            return a.peak.power < b.peak.power;
        });
    return most == partials.end() ? nullptr : &most->peak;
}

/// How far a partial lies off its place in a set.
struct Apart {
    double cents = 0;
    double variance = 0;
};

std::optional<Apart> off_place(const Peak& peak, const PartialSet& set,
                               const NoteSpectra& spectra) {
    const Frequency found = PartialPhase(spectra, peak.hz).slope(0, spectra.frames.size());
    if (found.variance <= 0)
        return std::nullopt;
    const int number = static_cast<int>(std::lround(peak.hz / set.fundamental_hz));
    return Apart{cents_above(found.hz, set.place(number)),
                 found.variance * std::pow(cents_per_e / found.hz, 2)};
}

/// How far the strongest partial that only `lower` has lies from the strongest of `higher`, each
/// beside its own place; nothing where their phases do not tell.
std::optional<Apart> apart(const PartialSet& higher, const PartialSet& lower,
                           const NoteSpectra& spectra) {
    std::vector<Partial> rest = lower.partials;
    std::erase_if(rest, [&](const Partial& p) {
        return std::any_of(higher.partials.begin(), higher.partials.end(),
                           [&](const Partial& h) { return h.peak.hz == p.peak.hz; });
    });
    const Peak *alone = strongest(rest), *common = strongest(higher.partials);
    const auto a = alone ? off_place(*alone, lower, spectra) : std::nullopt;
    const auto b = common ? off_place(*common, lower, spectra) : std::nullopt;
    if (!a || !b)
        return std::nullopt;
    return Apart{std::abs(a->cents - b->cents), a->variance + b->variance};
}

/// Whether the first partials of both swing as one: what is left of their phases is the same.
/// Partials that move alike are of one sound, and those of two strings, or of a string and a voice,
/// are not (S. McAdams, "Segregation of concurrent sounds", Journal of the Acoustical Society of
/// America 86, 1989; from memory).
bool swing_as_one(const PartialSet& higher, const PartialSet& lower, const NoteSpectra& spectra) {
    constexpr double least_swing = 0.01, common = 0.1; // a tenth of a radian; of what each swings
    const double ratio = higher.place(1) / lower.place(1), times = std::round(ratio);
    if (!lower.has(1) || std::abs(ratio - times) > 0.02)
        return false;
    const std::size_t frames = spectra.frames.size();
    const PartialPhase low(spectra, lower.partials[0].peak.hz),
        high(spectra, higher.partials[0].peak.hz);
    const double own_high = high.slope(0, frames).swing2,
                 own = times * times * low.slope(0, frames).swing2 + own_high;
    const Frequency both = PartialPhase(low, static_cast<int>(times), high).slope(0, frames);
    return own_high > least_swing && both.variance > 0 && both.swing2 < common * own;
}

} // namespace

bool is_louder_alone(const PartialSet& higher, const PartialSet& lower,
                     const NoteSpectra& spectra) {
    constexpr double usual = 0.045, most = 0.1, least = 0.016; // 13.5, 10 and 18 dB below
    constexpr double off_cents = 2.5, locked_cents = 0.3;
    if (higher.fundamental_hz < 1.2 * lower.fundamental_hz || !higher.has(1))
        return false;
    const auto [quiet, loud] = std::minmax(
        {1 - higher.weight / lower.weight, 1 - higher.explained_power / lower.explained_power});
    if (loud > most || !lower.has(1))
        return loud < most;
    if (loud > least && swing_as_one(higher, lower, spectra))
        return false;
    const auto off = apart(higher, lower, spectra);
    if (!off)
        return loud < usual;
    const double deviation = std::sqrt(off->variance);
    if (off->cents > off_cents + 4 * deviation)
        return true;
    const bool locked = off->cents < locked_cents + 2 * deviation;
    return loud < usual && (!locked || quiet < least);
}

std::optional<SoftSound> sound_below(const PartialSet& note, const std::vector<Peak>& peaks) {
    constexpr double clear_db = 14, most_softer_db = 30;
    double power = 0;
    const Peak* lowest = nullptr;
    for (const Peak& peak : peaks) {
        const bool own = std::any_of(note.partials.begin(), note.partials.end(),
                                     [&](const Partial& p) { return p.peak.hz == peak.hz; });
        if (own || peak.above_noise_db < clear_db)
            continue;
        lowest = lowest ? lowest : &peak;
        power += peak.power;
    }
    const double softer_db = 10 * std::log10(note.explained_power / power);
    if (!lowest || lowest->hz > note.place(1) || softer_db > most_softer_db)
        return std::nullopt;
    return SoftSound{lowest->hz, softer_db};
}

} // namespace sectio::measure
