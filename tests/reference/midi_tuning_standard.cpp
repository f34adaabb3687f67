// The MIDI Tuning Standard: its formula, its printed examples, its messages byte by byte.
// Source: MIDI Manufacturers Association, "MIDI Tuning Updated Specification" (with CA-020 and
// CA-021/RP-020). Other figures were computed by mpmath from the formula.

#include <sectio/tuning/tuning_message.hpp>

#include <catch2/catch.hpp>
#include <support/bytes.hpp>
#include <support/intervals.hpp>

using namespace sectio;
using namespace sectio::tuning;
using support::bytes;

namespace {

FrequencyWord word(const char* hex) {
    return FrequencyWord::of_bytes(bytes(hex));
}

TuningMessage equal_temperament(MessageKind kind) {
    TuningMessage message;
    message.kind = kind;
    message.name = "12-EQUAL";
    for (int key = 0; key < 128; ++key)
        message.keys.push_back({key, *FrequencyWord::nearest(pitch_of_key(key))});
    return message;
}

int checksum_of(MessageKind kind) {
    const std::string message = bytes_of(equal_temperament(kind));
    return static_cast<unsigned char>(message[message.size() - 2]);
}

} // namespace

TEST_CASE("MIDI Tuning Standard: the printed examples that the formula confirms") {
    // Words and frequencies as the specification prints them.
    const auto [hex, hertz] = GENERATE(table<const char*, const char*>({{"00 00 00", "8.1758"},
                                                                        {"0C 00 00", "16.3516"},
                                                                        {"3C 00 00", "261.6256"},
                                                                        {"44 7F 7F", "439.9984"},
                                                                        {"45 00 00", "440.0000"},
                                                                        {"45 00 01", "440.0016"}}));
    CHECK(word(hex).pitch().hertz(4) == hertz);
}

TEST_CASE("MIDI Tuning Standard: the printed examples that are rounded wrongly") {
    // The specification prints other digits; these are the formula's, 440 * 2^((n - 69) / 12).
    struct Row {
        const char *hex, *printed, *right;
    };
    const auto row = GENERATE(values<Row>({{"00 00 01", "8.2104", "8.1758"},
                                           {"01 00 00", "8.6620", "8.6620"},
                                           {"3D 00 00", "277.1827", "277.1826"},
                                           {"78 00 00", "8372.0190", "8372.0181"},
                                           {"78 00 01", "8372.0630", "8372.0476"},
                                           {"7F 00 00", "12543.8800", "12543.8540"},
                                           {"7F 00 01", "12543.9200", "12543.8982"},
                                           {"7F 7F 7E", "13289.7300", "13289.6566"}}));
    CAPTURE(row.hex, row.printed);
    CHECK(word(row.hex).pitch().hertz(4) == row.right);
}

TEST_CASE("MIDI Tuning Standard: the nearest word of a pitch") {
    const auto [written, hex] =
        GENERATE(table<const char*, const char*>({{"432Hz", "44 57 2B"},
                                                  {"435Hz", "44 66 56"},
                                                  {"442Hz", "45 0A 06"},
                                                  {"256Hz", "3B 4F 6A"},
                                                  {"440Hz", "45 00 00"},
                                                  {"A4+99.997c", "46 00 00"},  // carried over
                                                  {"A4+99.9969c", "45 7F 7F"}, // not yet
                                                  {"C-1", "00 00 00"}}));
    CAPTURE(written);
    CHECK(FrequencyWord::nearest(support::pitch(written))->text() == hex);
}

TEST_CASE("MIDI Tuning Standard: intervals above middle C") {
    const Pitch c = pitch_of_key(60);
    CHECK(FrequencyWord::nearest(c + support::interval("5/4"))->text() == "3F 6E 3E");
    CHECK(FrequencyWord::nearest(c + support::interval("3/2"))->text() == "43 02 40");
}

TEST_CASE("MIDI Tuning Standard: checksums over all bytes of the message") {
    using enum MessageKind;
    CHECK(checksum_of(bulk_dump) == 0x6A);
    CHECK(checksum_of(key_dump) == 0x6F);
    CHECK(checksum_of(octave_dump_1) == 0x6E);
    CHECK(checksum_of(octave_dump_2) == 0x6D);
}

TEST_CASE("MIDI Tuning Standard: lengths of the messages") {
    using enum MessageKind;
    CHECK(bytes_of(equal_temperament(bulk_dump)).size() == 408);
    CHECK(bytes_of(equal_temperament(key_dump)).size() == 409);
    CHECK(bytes_of(equal_temperament(octave_dump_1)).size() == 37);
    CHECK(bytes_of(equal_temperament(octave_dump_2)).size() == 49);
    CHECK(bytes_of(equal_temperament(octave_1)).size() == 21);
    CHECK(bytes_of(equal_temperament(octave_2)).size() == 33);
}

TEST_CASE("MIDI Tuning Standard: the messages as printed in it") {
    TuningMessage message;
    message.kind = MessageKind::note_change;
    message.program = 3;
    message.keys = {{69, word("45 00 01")}, {60, no_change}};
    CHECK(bytes_of(message) == bytes("F0 7F 7F 08 02 03 02 45 450001 3C 7F7F7F F7"));
    message.kind = MessageKind::note_change_in_bank;
    message.bank = 5;
    CHECK(bytes_of(message) == bytes("F0 7E 7F 08 07 05 03 02 45 450001 3C 7F7F7F F7"));
    message.real_time = true;
    message.device = 1;
    CHECK(bytes_of(message) == bytes("F0 7F 01 08 07 05 03 02 45 450001 3C 7F7F7F F7"));
}

TEST_CASE("MIDI Tuning Standard: offsets of quarter-comma meantone on C, E flat to G sharp") {
    TuningMessage message;
    message.kind = MessageKind::octave_1;
    const Interval fifth = support::interval("5^(1/4)");
    for (int key = 0; key < 12; ++key) {
        int fifths = key * 7 % 12; // C is 0, G is 1, …
        if (fifths > 8)
            fifths -= 12; // F, B flat, E flat
        const Interval above = reduced(Integer(fifths) * fifth) - Interval::from_steps(key, 12);
        message.offsets[static_cast<std::size_t>(key)] = *nearest_offset(above, one_byte_offset);
    }
    CHECK(bytes_of(message)
          == bytes("F0 7E 7F 08 08 03 7F 7F 40 28 39 4A 32 43 2B 3D 25 36 47 2F F7"));
    message.kind = MessageKind::octave_2;
    for (int key = 0; key < 12; ++key) {
        const int fifths = key * 7 % 12 > 8 ? key * 7 % 12 - 12 : key * 7 % 12;
        const Interval above = reduced(Integer(fifths) * fifth) - Interval::from_steps(key, 12);
        message.offsets[static_cast<std::size_t>(key)] = *nearest_offset(above, two_byte_offset);
    }
    CHECK(bytes_of(message)
          == bytes("F0 7E 7F 08 09 03 7F 7F 4000 3056 3B4F 4649 371F 4218 326E 3D68 2E3E 3937 4431 "
                   "3507 F7"));
}
