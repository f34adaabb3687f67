#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/stored_tuning.hpp>

#include <algorithm>
#include <numeric>
#include <tuple>

namespace sectio::tuning {

namespace {

constexpr int middle_c = 60;

bool for_channels(MessageKind kind) {
    return !row_of(kind).program;
}

/// The tuning that `message` speaks of: that of its bank and program, or a new one on its channels,
/// which lose what they had.
StoredTuning& tuning_of(const TuningMessage& message, std::vector<StoredTuning>& tunings) {
    if (for_channels(message.kind)) {
        const auto others = static_cast<std::uint16_t>(~message.channels);
        std::erase_if(tunings, [&](const StoredTuning& t) {
            return t.channels != 0 && (t.channels & others) == 0;
        });
        for (StoredTuning& tuning : tunings)
            tuning.channels = static_cast<std::uint16_t>(tuning.channels & others);
        StoredTuning& sent = tunings.emplace_back();
        sent.channels = message.channels;
        return sent;
    }
    const auto found = std::find_if(tunings.begin(), tunings.end(), [&](const StoredTuning& t) {
        return t.channels == 0 && t.bank == message.bank && t.program == message.program;
    });
    if (found != tunings.end())
        return *found;
    StoredTuning& stored = tunings.emplace_back();
    stored.bank = message.bank;
    stored.program = message.program;
    return stored;
}

void receive(const TuningMessage& message, StoredTuning& tuning) {
    if (row_of(message.kind).named)
        tuning.name = message.name;
    tuning.octave = row_of(message.kind).octave;
    if (!tuning.octave) {
        for (const auto& [key, word] : message.keys)
            if (key < 0 || key >= key_count)
                throw error(message::tuning_no_key, fmt::to_string(key), {});
            else if (!word.is_no_change())
                tuning.keys[static_cast<std::size_t>(key)] = word.pitch();
        return;
    }
    // "Scale/octave messages do not accumulate": each counts from 12 equal steps.
    for (int key = 0; key < key_count; ++key) {
        const int offset = message.offsets[static_cast<std::size_t>(key % 12)];
        tuning.keys[static_cast<std::size_t>(key)] =
            pitch_of_key(key) + offset_of(offset, form_of(message.kind));
    }
}

} // namespace

std::vector<StoredTuning> stored_tunings(const std::vector<TuningMessage>& messages) {
    std::vector<StoredTuning> tunings;
    for (const TuningMessage& message : messages)
        if (!for_channels(message.kind) || message.channels != 0)
            receive(message, tuning_of(message, tunings));
    return tunings;
}

namespace {

/// After how many keys a tuning is the same again, higher by the period.
struct Repeat {
    int keys;
    Interval period;
};

/// A unit of the words, which are right to half of it: a distance of two is right to a whole one.
const Interval& unit() {
    static const Interval interval = Interval::from_steps(1, 196'608);
    return interval;
}

using Keys = std::array<std::optional<Pitch>, key_count>;

/// From each tuned key to the one `keys` above it.
std::vector<Interval> distances(const Keys& pitches, int keys) {
    std::vector<Interval> all;
    for (std::size_t low = 0, high = static_cast<std::size_t>(keys); high < pitches.size();
         ++low, ++high)
        if (pitches[low] && pitches[high])
            all.push_back(*pitches[high] - *pitches[low]);
    return all;
}

std::optional<Repeat> repeat_at(const Keys& pitches, const Interval& period) {
    for (int keys = 2; keys <= key_count / 2; ++keys) {
        const auto found = distances(pitches, keys);
        const bool all = std::all_of(found.begin(), found.end(), [&](const Interval& distance) {
            return absolute(distance - period) <= unit();
        });
        if (!found.empty() && all)
            return Repeat{keys, period};
    }
    return std::nullopt;
}

/// Any interval at which all of two periods or more repeat: the mean of what is there.
std::optional<Repeat> repeat_anywhere(const Keys& pitches) {
    for (int keys = 2; keys <= key_count / 3; ++keys) {
        const auto found = distances(pitches, keys);
        if (found.size() < static_cast<std::size_t>(2 * keys))
            continue;
        const auto [least, most] = std::minmax_element(found.begin(), found.end());
        if (*least > Interval() && *most - *least <= Integer(2) * unit())
            return Repeat{keys, sum(found) * Rational(1, Integer(found.size()))};
    }
    return std::nullopt;
}

std::optional<Repeat> repeat_of(const StoredTuning& tuning) {
    if (tuning.octave)
        return Repeat{12, Interval::octave()};
    for (const Interval& period :
         {Interval::octave(), Interval::from_ratio(3), Interval::from_ratio(3, 2)})
        if (const auto repeat = repeat_at(tuning.keys, period))
            return repeat;
    return repeat_anywhere(tuning.keys);
}

int lowest_key(const Keys& keys) {
    return static_cast<int>(
        std::find_if(keys.begin(), keys.end(), [](const auto& pitch) { return pitch.has_value(); })
        - keys.begin());
}

int chosen_tonic(const StoredTuning& tuning, std::optional<int> asked, bool repeats) {
    const auto tuned = [&](int key) {
        return key >= 0 && key < key_count
               && tuning.keys[static_cast<std::size_t>(key)].has_value();
    };
    if (asked && !tuned(*asked))
        throw error(message::tuning_key_silent, usual_note(*asked).text(), {});
    if (asked)
        return *asked;
    const int lowest = repeats && tuned(middle_c) ? middle_c : lowest_key(tuning.keys);
    if (!tuned(lowest))
        throw error(message::tuning_key_silent, tuning.name, {});
    return lowest;
}

/// "203.912353515625c": the words are finite decimals of a cent, which what is brought into a
/// period such as 3/2 is no longer.
std::string exact_text(const Interval& interval) {
    const auto cents = interval.exact_cents();
    const std::string decimal = cents ? exact_decimal(*cents) : "";
    return decimal.empty() ? to_expression(interval) : decimal + "c";
}

/// Of the keys that lie whole periods from `key` the first tuned one from there up, else down.
std::optional<Pitch> tuned_as(const Keys& keys, int key, int period) {
    for (int up = key; up < key_count; up += period)
        if (keys[static_cast<std::size_t>(up)])
            return keys[static_cast<std::size_t>(up)];
    for (int down = std::min(key, key_count - 1); down >= 0; --down)
        if ((key - down) % period == 0 && keys[static_cast<std::size_t>(down)])
            return keys[static_cast<std::size_t>(down)];
    return std::nullopt;
}

/// All tuned keys from the tonic; where they repeat, those of one period, brought into it, rising.
std::vector<Interval> degrees_of(const Keys& keys, int tonic, const std::optional<Repeat>& repeat) {
    const Pitch& start = *keys[static_cast<std::size_t>(tonic)];
    std::vector<Interval> degrees;
    if (repeat) {
        for (int key = tonic; key < tonic + repeat->keys; ++key)
            if (const auto pitch = tuned_as(keys, key, repeat->keys))
                degrees.push_back(reduced(*pitch - start, repeat->period));
    } else {
        for (const auto& pitch : keys)
            if (pitch)
                degrees.push_back(*pitch - start);
    }
    std::sort(degrees.begin(), degrees.end());
    degrees.erase(std::unique(degrees.begin(), degrees.end()), degrees.end());
    return degrees;
}

/// Of a message's pitch, which lies a part of a semitone over a power of 2 from its key.
StatedPitch stated(const Pitch& pitch) {
    const KeyedPitch keyed = nearest_key(pitch);
    return {usual_note(keyed.key), keyed.deviation.exact_cents().value()};
}

} // namespace

Scale scale_of(const StoredTuning& tuning, const std::string& name, std::optional<int> tonic_key) {
    const auto repeat = repeat_of(tuning);
    const int tonic = chosen_tonic(tuning, tonic_key, repeat.has_value());
    Scale scale;
    scale.name = tuning.name.empty() ? name : tuning.name;
    scale.tonic = stated(*tuning.keys[static_cast<std::size_t>(tonic)]);
    scale.reference = "A4 = 440 Hz";
    if (repeat)
        scale.period = repeat->period;
    for (const Interval& interval : degrees_of(tuning.keys, tonic, repeat)) {
        Degree degree;
        degree.interval = interval;
        degree.written = interval.is_unison() ? "1/1" : exact_text(interval);
        scale.degrees.push_back(std::move(degree));
    }
    scale.remarks = {"Read from tuning messages, which round each pitch: to 0.0061 cents in three "
                     "bytes, to 0.0122 cents in two, to 1 cent in one."};
    return scale;
}

} // namespace sectio::tuning
