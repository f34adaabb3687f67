#include <sectio/base/argument.hpp>
#include <sectio/base/ascii.hpp>
#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/tuning_message.hpp>

#include <algorithm>

namespace sectio::tuning {

namespace {

constexpr char non_real_time_id = 0x7E, real_time_id = 0x7F, tuning_id = 0x08;
constexpr std::size_t name_length = 16, head_length = 5; // F0, sort, device, 08, sub-ID

char byte_of(int value) {
    return static_cast<char>(value & 0x7F);
}

/// All bytes but F0, the checksum and F7, exclusive-or'ed ("Checksum Calculation").
char checksum(std::string_view bytes) {
    char sum = 0;
    for (const char c : bytes)
        sum = static_cast<char>(sum ^ c);
    return byte_of(sum);
}

std::string without_blanks_behind(std::string_view name) {
    const auto last = name.find_last_not_of(' ');
    return std::string(name.substr(0, last == std::string_view::npos ? 0 : last + 1));
}

/// 16 characters, blanks after.
std::string padded(std::string_view name) {
    std::string text = stored_name(name);
    text.resize(name_length, ' ');
    return text;
}

/// ff gg hh: channels 15 and 16, 8 to 14, 1 to 7, the lowest in bit 0.
std::string channel_bytes(std::uint16_t channels) {
    return {byte_of(channels >> 14), byte_of(channels >> 7), byte_of(channels)};
}

std::string offset_bytes(const TuningMessage& message) {
    const OffsetForm& form = form_of(message.kind);
    std::string out;
    for (const int offset : message.offsets) {
        const int value = offset - form.lowest;
        if (form.bytes == 2)
            out += byte_of(value >> 7);
        out += byte_of(value);
    }
    return out;
}

std::string key_bytes(const TuningMessage& message, const KindRow& row) {
    std::string out;
    if (!row.named)
        out += byte_of(static_cast<int>(message.keys.size()));
    for (const KeyWord& key : message.keys) {
        if (!row.named)
            out += byte_of(key.key);
        out += key.word.bytes();
    }
    return out;
}

} // namespace

std::string stored_name(std::string_view name) {
    return without_blanks_behind(ascii_letters(name).substr(0, name_length));
}

const std::array<KindRow, 8>& message_kinds() {
    using enum MessageKind;
    static constexpr bool yes = true, no = false;
    static const std::array<KindRow, 8> rows{{
        // clang-format off
        {bulk_dump,           "bulk-dump",           "bulk dump",                          1, yes, no,  no,  yes, yes, no},
        {note_change,         "note-change",         "single note change",                 2, no,  yes, no,  yes, no,  no},
        {key_dump,            "key-dump",            "key-based dump with bank",           4, yes, no,  yes, yes, yes, no},
        {octave_dump_1,       "octave-dump-1",       "scale/octave dump, one byte",        5, yes, no,  yes, yes, yes, yes},
        {octave_dump_2,       "octave-dump-2",       "scale/octave dump, two bytes",       6, yes, no,  yes, yes, yes, yes},
        {note_change_in_bank, "note-change-in-bank", "single note change with bank",       7, yes, yes, yes, yes, no,  no},
        {octave_1,            "octave-1",            "scale/octave tuning, one byte",      8, yes, yes, no,  no,  no,  yes},
        {octave_2,            "octave-2",            "scale/octave tuning, two bytes",     9, yes, yes, no,  no,  no,  yes},
        // clang-format on
    }};
    return rows;
}

const KindRow& row_of(MessageKind kind) {
    return row_for(message_kinds(), kind);
}

MessageKind parse_message_kind(std::string_view text, const Place& place) {
    std::string names;
    for (const KindRow& row : message_kinds()) {
        if (text == row.name || text == fmt::format("08-{:02X}", row.sub_id))
            return row.kind;
        names += fmt::format("{}{}", names.empty() ? "" : ", ", row.name);
    }
    throw error(message::tuning_unknown_kind, text, place, names);
}

const OffsetForm& form_of(MessageKind kind) {
    const bool one = kind == MessageKind::octave_1 || kind == MessageKind::octave_dump_1;
    return one ? one_byte_offset : two_byte_offset;
}

namespace {

void check_range(std::string_view field, long value, long low, long high) {
    if (value < low || value > high)
        throw error(message::tuning_field, fmt::to_string(value), {}, field, value,
                    fmt::format("{} to {}", low, high));
}

void check_fields(const TuningMessage& message, const KindRow& row) {
    constexpr long most = 0x7F;
    check_range("device", message.device, 0, most);
    check_range("bank", message.bank, 0, most);
    check_range("program", message.program, 0, most);
    if (row.octave)
        for (const int offset : message.offsets)
            check_range("offset", offset, form_of(row.kind).lowest, form_of(row.kind).highest);
    else
        check_range("count of keys", static_cast<long>(message.keys.size()),
                    row.named ? most + 1 : 1, row.named ? most + 1 : most);
    for (const KeyWord& key : message.keys)
        check_range("key", key.key, 0, most);
}

} // namespace

std::string bytes_of(const TuningMessage& message) {
    const KindRow& row = row_of(message.kind);
    check_fields(message, row);
    const bool real_time = row.real_time && (message.real_time || !row.non_real_time);
    std::string out{begin_exclusive, real_time ? real_time_id : non_real_time_id,
                    byte_of(message.device), tuning_id, byte_of(row.sub_id)};
    if (row.bank)
        out += byte_of(message.bank);
    if (row.program)
        out += byte_of(message.program);
    else
        out += channel_bytes(message.channels);
    if (row.named)
        out += padded(message.name);
    out += row.octave ? offset_bytes(message) : key_bytes(message, row);
    if (row.named)
        out += checksum(std::string_view(out).substr(1));
    return out + end_exclusive;
}

namespace {

const KindRow* find_row(std::string_view message) {
    if (message.size() < head_length || message[0] != begin_exclusive || message[3] != tuning_id
        || (message[1] != real_time_id && message[1] != non_real_time_id))
        return nullptr;
    const auto& rows = message_kinds();
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const KindRow& candidate) {
        return candidate.sub_id == static_cast<unsigned char>(message[4]);
    });
    return row == rows.end() ? nullptr : &*row;
}

/// The bytes of a message after its head, taken one after the other. The length is checked before.
class Body {
  public:
    explicit Body(std::string_view bytes) : bytes_(bytes) {}
    int number() { return static_cast<unsigned char>(take(1)[0]); }
    int number(int count) {
        int value = 0;
        for (; count > 0; --count)
            value = value << 7 | number();
        return value;
    }
    std::string_view take(std::size_t count) {
        const std::string_view taken = bytes_.substr(0, count);
        bytes_.remove_prefix(count);
        return taken;
    }

  private:
    std::string_view bytes_;
};

/// Bytes from F0 to F7 that this message must have.
std::size_t wanted_length(const KindRow& row, std::string_view message) {
    const std::size_t before = head_length + (row.bank ? 1 : 0) + (row.program ? 1 : 3);
    const std::size_t around = row.named ? name_length + 1 : 0;
    if (row.octave)
        return before + around + 12 * static_cast<std::size_t>(form_of(row.kind).bytes) + 1;
    if (row.named)
        return before + around + std::size_t{3} * 128 + 1;
    if (message.size() <= before + 1) // F7 stands where the count should
        return before + 2;
    return before + 1 + 4 * std::size_t{static_cast<unsigned char>(message[before])} + 1;
}

void read_keys(Body& body, const KindRow& row, TuningMessage& message) {
    const int count = row.named ? 128 : body.number();
    for (int i = 0; i < count; ++i) {
        const int key = row.named ? i : body.number();
        message.keys.push_back({key, FrequencyWord::of_bytes(body.take(3))});
    }
}

TuningMessage read_body(Body body, const KindRow& row, TuningMessage message) {
    if (row.bank)
        message.bank = body.number();
    if (row.program)
        message.program = body.number();
    else
        message.channels = static_cast<std::uint16_t>(body.number(3));
    if (row.named)
        message.name = without_blanks_behind(body.take(name_length));
    if (!row.octave) {
        read_keys(body, row, message);
        return message;
    }
    for (int& offset : message.offsets)
        offset = body.number(form_of(row.kind).bytes) + form_of(row.kind).lowest;
    return message;
}

} // namespace

namespace {

/// All bytes between F0 and F7 are numbers of seven bits: what is read of them needs no other
/// check.
void check_data(std::string_view bytes, const KindRow& row, const std::string& file,
                const std::string& where) {
    for (std::size_t i = 1; i + 1 < bytes.size(); ++i)
        if (const auto byte = static_cast<unsigned char>(bytes[i]); byte > 0x7F)
            throw error(message::tuning_data_byte, "", Place{file}, fmt::format("{:02X}", byte), i,
                        row.title, where);
}

} // namespace

bool carries_tuning(std::string_view message) {
    return find_row(message) != nullptr;
}

TuningMessage read_message(std::string_view bytes, const std::string& file,
                           const std::string& where) {
    if (!carries_tuning(bytes))
        throw error(message::no_tuning_message, "", Place{file});
    const KindRow& row = *find_row(bytes);
    check_data(bytes, row, file, where);
    const std::size_t wanted = wanted_length(row, bytes);
    if (bytes.size() != wanted)
        throw error(message::tuning_length, "", Place{file}, row.title, where, bytes.size(),
                    wanted);
    const bool real_time = bytes[1] == real_time_id;
    if (real_time ? !row.real_time : !row.non_real_time)
        throw error(message::tuning_sort, "", Place{file}, row.title, where,
                    real_time ? "F0 7E" : "F0 7F");
    const char sum = checksum(bytes.substr(1, bytes.size() - 3));
    if (row.named && row.kind != MessageKind::bulk_dump && bytes[bytes.size() - 2] != sum)
        throw error(message::tuning_checksum, "", Place{file}, row.title, where);
    TuningMessage read;
    read.kind = row.kind;
    read.real_time = real_time;
    read.device = bytes[2];
    return read_body(Body(bytes.substr(head_length)), row, std::move(read));
}

} // namespace sectio::tuning
