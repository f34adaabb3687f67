#include <sectio/tuning/key_table.hpp>
#include <sectio/tuning/worded_keys.hpp>

#include <algorithm>
#include <set>

namespace sectio::tuning {

namespace {

bool is_key(int key) {
    return key >= 0 && key < key_count;
}

WordedKey by_offset(const KeyedPitch& keyed, const OffsetForm& form) {
    WordedKey made;
    made.key = keyed.key;
    made.slot = static_cast<std::size_t>(keyed.key % 12);
    made.value = nearest_offset(keyed.deviation, form).value(); // within 50 cents
    made.error = offset_of(made.value, form) - keyed.deviation;
    return made;
}

} // namespace

WordedKey worded(const Pitch& pitch, MessageKind kind) {
    const KeyedPitch keyed = nearest_key(pitch);
    if (!is_key(keyed.key))
        return {};
    if (row_of(kind).octave)
        return by_offset(keyed, form_of(kind));
    const auto word = FrequencyWord::nearest(pitch);
    if (!word)
        return {};
    WordedKey made;
    made.key = keyed.key;
    made.slot = static_cast<std::size_t>(keyed.key);
    made.value = static_cast<int>(word->value());
    made.error = word->pitch() - pitch;
    return made;
}

bool fits_octave(const Performance& music) {
    std::array<std::set<int>, 12> of_note;
    std::array<std::set<int>, key_count> of_key;
    std::vector<bool> sounds(music.pitches.size());
    for (const PlayedNote& note : music.notes)
        sounds[note.pitch] = sounds[note.pitch] || !music.instruments[note.instrument].percussion;
    for (std::size_t pitch = 0; pitch < sounds.size(); ++pitch) {
        if (!sounds[pitch])
            continue;
        const KeyedPitch keyed = nearest_key(music.pitches[pitch]);
        const auto step = nearest_offset(keyed.deviation, two_byte_offset);
        if (!is_key(keyed.key) || !step)
            continue;
        of_note[static_cast<std::size_t>(keyed.key % 12)].insert(*step);
        of_key[static_cast<std::size_t>(keyed.key)].insert(*step);
    }
    for (std::size_t note = 0; note < 12; ++note) {
        std::size_t most = 0;
        for (std::size_t key = note; key < key_count; key += 12)
            most = std::max(most, of_key[key].size());
        if (of_note[note].size() > most)
            return false;
    }
    return true;
}

} // namespace sectio::tuning
