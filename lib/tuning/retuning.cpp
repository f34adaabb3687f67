#include <sectio/interval/pitch.hpp>
#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/retuning.hpp>
#include <sectio/tuning/tuning_file.hpp>

#include <algorithm>

namespace sectio::tuning {

namespace {

/// A message holds up to 127 changes; half of that keeps within the buffers of small receivers
/// (own rule).
constexpr std::size_t changes_in_message = 64;

/// The words of all keys, as a dump has them.
std::vector<KeyWord> words_of(const KeyTable& table, Retuning& retuning) {
    std::vector<KeyWord> words;
    for (int key = 0; key < key_count; ++key) {
        const auto& mapped = table[static_cast<std::size_t>(key)];
        const auto word = mapped ? FrequencyWord::nearest(mapped->pitch) : std::nullopt;
        words.push_back({key, word.value_or(no_change)});
        if (word)
            retuning.keys.push_back({key, mapped->at, mapped->pitch, word->pitch(), word});
        else if (mapped)
            retuning.beyond.push_back(key);
    }
    return words;
}

void say_keys(const KeyTable& table, const TuningMessage& model, Retuning& retuning) {
    std::vector<KeyWord> words = words_of(table, retuning);
    TuningMessage message = model;
    if (row_of(model.kind).named) {
        message.keys = std::move(words);
        retuning.messages.push_back(std::move(message));
        return;
    }
    std::erase_if(words, [](const KeyWord& key) { return key.word.is_no_change(); });
    for (std::size_t i = 0; i < words.size(); i += changes_in_message) {
        const auto begin = words.begin() + static_cast<std::ptrdiff_t>(i);
        const auto count = std::min(changes_in_message, words.size() - i);
        message.keys.assign(begin, begin + static_cast<std::ptrdiff_t>(count));
        retuning.messages.push_back(message);
    }
}

/// How far each of C, C#, … B lies from 12 equal steps; one answer for all octaves.
std::array<std::optional<Interval>, 12> offsets_of(const KeyTable& table, const KindRow& row) {
    std::array<std::optional<Interval>, 12> offsets;
    for (int key = 0; key < key_count; ++key) {
        const auto& mapped = table[static_cast<std::size_t>(key)];
        if (!mapped)
            continue;
        const Interval offset = mapped->pitch - pitch_of_key(key);
        auto& known = offsets[static_cast<std::size_t>(key % 12)];
        if (known && *known != offset)
            throw error(message::tuning_not_octave, "", {}, row.title, usual_note(key).name.text());
        known = offset;
    }
    return offsets;
}

int offset_step(const Interval& offset, int note, const KindRow& row) {
    const OffsetForm& form = form_of(row.kind);
    if (const auto step = nearest_offset(offset, form))
        return *step;
    throw error(message::tuning_offset_range, "", {}, usual_note(note).name.text(), offset.cents(1),
                row.title, offset_of(form.lowest, form).cents(0),
                offset_of(form.highest, form).cents(form.bytes == 1 ? 0 : 3));
}

void say_offsets(const KeyTable& table, const TuningMessage& model, Retuning& retuning) {
    const KindRow& row = row_of(model.kind);
    const auto offsets = offsets_of(table, row);
    TuningMessage message = model;
    for (int note = 0; note < 12; ++note)
        if (const auto& offset = offsets[static_cast<std::size_t>(note)])
            message.offsets[static_cast<std::size_t>(note)] = offset_step(*offset, note, row);
    for (int key = 0; key < key_count; ++key)
        if (const auto& mapped = table[static_cast<std::size_t>(key)]) {
            const int step = message.offsets[static_cast<std::size_t>(key % 12)];
            retuning.keys.push_back({key, mapped->at, mapped->pitch,
                                     pitch_of_key(key) + offset_of(step, form_of(row.kind)),
                                     std::nullopt});
        }
    retuning.messages.push_back(std::move(message));
}

} // namespace

std::optional<RetunedKey> Retuning::worst() const {
    const auto smaller = [](const RetunedKey& a, const RetunedKey& b) {
        return absolute(a.error()) < absolute(b.error());
    };
    const auto worst = std::max_element(keys.begin(), keys.end(), smaller);
    return worst == keys.end() || worst->error().is_unison() ? std::nullopt : std::optional(*worst);
}

Retuning retune(const KeyTable& table, const TuningMessage& asked) {
    Retuning retuning;
    TuningMessage model = asked;
    model.name = stored_name(asked.name);
    if (row_of(model.kind).octave)
        say_offsets(table, model, retuning);
    else
        say_keys(table, model, retuning);
    if (retuning.keys.empty())
        throw error(message::tuning_nothing_to_say, "", {});
    return retuning;
}

std::string tuning_bytes(const TunedScale& scale, MessageKind kind) {
    const int anchor = std::clamp(scale.degrees()[scale.tonic_index()].key, 0, key_count - 1);
    TuningMessage model;
    model.kind = kind;
    model.name = scale.scale().id.empty() ? scale.scale().name : scale.scale().id;
    return exclusive_bytes(retune(key_table(scale, {anchor, {}}), model).messages);
}

} // namespace sectio::tuning
