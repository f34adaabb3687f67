#pragma once
/// @file
/// Messages of the MIDI Tuning Standard, made and read. Source: as for frequency_word.hpp.

#include <sectio/base/error.hpp>
#include <sectio/tuning/frequency_word.hpp>

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::tuning {

/// The bytes that a system exclusive message begins and ends with.
inline constexpr char begin_exclusive = '\xF0', end_exclusive = '\xF7';

/// The messages that carry a tuning, named by their two sub-ID bytes in the standard.
enum class MessageKind {
    bulk_dump,           ///< 08 01: all 128 keys
    note_change,         ///< 08 02: some keys, at once
    key_dump,            ///< 08 04: all 128 keys, with a bank
    octave_dump_1,       ///< 08 05: 12 offsets of one byte, stored
    octave_dump_2,       ///< 08 06: 12 offsets of two bytes, stored
    note_change_in_bank, ///< 08 07: some keys, with a bank
    octave_1,            ///< 08 08: 12 offsets of one byte, for some channels
    octave_2,            ///< 08 09: 12 offsets of two bytes, for some channels
};

/// What the standard lays down of one kind.
struct KindRow {
    MessageKind kind;
    std::string_view name; ///< as commands and JSON call it: "bulk-dump"
    std::string_view title;
    std::uint8_t sub_id; ///< the byte after 08
    bool non_real_time;  ///< may begin with F0 7E
    bool real_time;      ///< may begin with F0 7F
    bool bank;           ///< has a bank byte before the program
    bool program;
    bool named;  ///< has a name of 16 characters, and a checksum at its end
    bool octave; ///< speaks of 12 offsets, not of keys
};

const std::array<KindRow, 8>& message_kinds();
const KindRow& row_of(MessageKind kind);
/// By its name, or by its bytes as "08-01". @throws Error tuning_unknown_kind
MessageKind parse_message_kind(std::string_view text, const Place& place = {});
/// Of a kind with offsets.
const OffsetForm& form_of(MessageKind kind);

struct KeyWord {
    int key; ///< 0 … 127
    FrequencyWord word;
    friend bool operator==(const KeyWord&, const KeyWord&) = default;
};

/// One message. What its kind lacks is ignored when it is written.
struct TuningMessage {
    MessageKind kind = MessageKind::bulk_dump;
    bool real_time = false;
    int device = 0x7F;               ///< 0 … 127; 127 for all
    int bank = 0;                    ///< 0 … 127
    int program = 0;                 ///< 0 … 127
    std::string name;                ///< of which stored_name() is written
    std::uint16_t channels = 0xFFFF; ///< bit 0 for channel 1; of octave_1 and octave_2
    std::vector<KeyWord> keys;       ///< a dump has all 128 in order; a change up to 127
    std::array<int, 12> offsets{};   ///< C, C#, … B, in steps of form_of(kind)
    friend bool operator==(const TuningMessage&, const TuningMessage&) = default;
};

/// A name as a dump stores it: 16 letters of ASCII at most.
std::string stored_name(std::string_view name);

/// From F0 to F7. Where the kind is of one sort only, `real_time` has no say.
/// @throws Error tuning_field for a number or a count of keys that the message cannot hold
std::string bytes_of(const TuningMessage& message);

/// Whether `message`, from F0 to F7, carries a tuning by this standard.
bool carries_tuning(std::string_view message);
/// Reads such a message. `file` and `where` in it ("at byte 12") stand in errors. The checksum of a
/// bulk dump 08 01 is not asked, since its definition was ambiguous (the standard says so); others
/// must be right.
/// @throws Error no_tuning_message unless carries_tuning(message), tuning_data_byte, tuning_length,
/// tuning_checksum, tuning_sort
TuningMessage read_message(std::string_view message, const std::string& file,
                           const std::string& where);

} // namespace sectio::tuning
