// Tuning messages: bounds of words and offsets, messages read back, damaged ones refused.

#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/tuning_message.hpp>

#include <catch2/catch.hpp>
#include <support/bytes.hpp>
#include <support/errors.hpp>
#include <support/intervals.hpp>

using namespace sectio;
using namespace sectio::tuning;

namespace {

Interval units(int count) { // of 100/16384 cents, in quarters
    return Interval::from_steps(count, 4 * 196'608);
}

std::optional<std::uint32_t> nearest(const Pitch& pitch) {
    const auto word = FrequencyWord::nearest(pitch);
    return word ? std::optional(word->value()) : std::nullopt;
}

TuningMessage dense(MessageKind kind) {
    TuningMessage message;
    message.kind = kind;
    message.real_time = row_of(kind).real_time && !row_of(kind).non_real_time;
    message.bank = row_of(kind).bank ? 5 : 0;
    message.program = row_of(kind).program ? 100 : 0;
    message.device = 17;
    if (row_of(kind).named)
        message.name = "one name";
    if (row_of(kind).octave)
        for (std::size_t i = 0; i < 12; ++i)
            message.offsets[i] = static_cast<int>(5 * i) - 30;
    else
        for (int key = 0; key < (row_of(kind).named ? 128 : 127); ++key)
            message.keys.push_back({key, FrequencyWord(static_cast<std::uint32_t>(16'000 * key))});
    return message;
}

std::string refusal(const std::string& bytes) {
    return support::name_of(support::error_of([&] { read_message(bytes, "a.syx", "at byte 0"); }));
}

} // namespace

TEST_CASE("Frequency word: halves go down, and the ends are clear") {
    const Pitch first = pitch_of_key(0);
    CHECK(nearest(first + units(2)) == 0U); // exactly half a unit
    CHECK(nearest(first + units(3)) == 1U);
    CHECK(nearest(first - units(1)) == 0U);
    CHECK_FALSE(nearest(first - units(2)));
    const Pitch last = FrequencyWord(0x1FFFFE).pitch();
    CHECK(nearest(last) == 0x1FFFFEU);
    CHECK(nearest(last + units(6)) == 0x1FFFFEU); // rounds to the reserved word, which is avoided
    CHECK_FALSE(nearest(last + units(7)));
    CHECK(no_change.is_no_change());
    CHECK(no_change.text() == "7F 7F 7F");
}

TEST_CASE("Offsets: the range of each form") {
    using support::interval;
    CHECK(nearest_offset(interval("63.5c"), one_byte_offset) == 63);
    CHECK_FALSE(nearest_offset(interval("63.51c"), one_byte_offset));
    CHECK(nearest_offset(interval("-64.49c"), one_byte_offset) == -64);
    CHECK_FALSE(nearest_offset(interval("-64.5c"), one_byte_offset));
    CHECK(nearest_offset(interval("-100c"), two_byte_offset) == -8192);
    CHECK(nearest_offset(interval("99.99c"), two_byte_offset) == 8191);
    CHECK_FALSE(nearest_offset(interval("100c"), two_byte_offset));
    CHECK(offset_of(8191, two_byte_offset).cents(6) == "99.987793"); // printed in the standard
}

TEST_CASE("Tuning message: every kind comes back as it was written") {
    for (const KindRow& row : message_kinds()) {
        CAPTURE(row.name);
        const TuningMessage message = dense(row.kind);
        const std::string bytes = bytes_of(message);
        REQUIRE(carries_tuning(bytes));
        CHECK(read_message(bytes, "a.syx", "at byte 0") == message);
        CHECK(parse_message_kind(row.name) == row.kind);
        CHECK(parse_message_kind(fmt::format("08-{:02X}", row.sub_id)) == row.kind);
    }
    CHECK(support::name_of(support::error_of([] { parse_message_kind("dump"); }))
          == "tuning_unknown_kind");
}

TEST_CASE("Tuning message: channels by the standard's bits") {
    TuningMessage message = dense(MessageKind::octave_1);
    const auto [channel, hex] = GENERATE(table<int, const char*>({{1, "000001"},
                                                                  {7, "000040"},
                                                                  {8, "000100"},
                                                                  {14, "004000"},
                                                                  {15, "010000"},
                                                                  {16, "020000"}}));
    message.channels = static_cast<std::uint16_t>(1 << (channel - 1));
    CHECK(bytes_of(message).substr(5, 3) == support::bytes(hex));
    CHECK(read_message(bytes_of(message), "", "").channels == message.channels);
}

TEST_CASE("Tuning message: a name of other letters becomes ASCII of 16 characters") {
    TuningMessage message = dense(MessageKind::key_dump);
    message.name = "Hüseyni and more than fits";
    CHECK(bytes_of(message).substr(7, 16) == "Huseyni and more");
    CHECK(stored_name("Sûznâk, B♭ ł") == "Suznak, Bb l");
    CHECK(stored_name("راست") == "????"); // one a letter
    CHECK(stored_name("15 letters, one more") == "15 letters, one");
    CHECK(stored_name("a\x01\xFF") == "a??");
}

TEST_CASE("Tuning message: a byte missing, added or changed is noticed") {
    for (const KindRow& row : message_kinds()) {
        CAPTURE(row.name);
        const std::string bytes = bytes_of(dense(row.kind));
        CHECK(refusal(bytes.substr(0, bytes.size() - 2) + "\xF7") == "tuning_length");
        CHECK(refusal(bytes.substr(0, bytes.size() - 1) + "\x01\xF7") == "tuning_length");
        CHECK(refusal(bytes.substr(0, 5) + "\xF7") == "tuning_length");
        std::string changed = bytes;
        changed[bytes.size() - 4] ^= 1;
        const bool checked = row.named && row.kind != MessageKind::bulk_dump;
        CHECK(refusal(changed) == (checked ? "tuning_checksum" : "no error"));
    }
    CHECK(refusal(support::bytes("F07E7F0802000145450000F7")) == "tuning_sort");
}

TEST_CASE("Tuning message: where it ends before its count, the shortest one is named") {
    const auto wanted = [](const char* hex) {
        const auto error = support::error_of([&] { read_message(support::bytes(hex), "", ""); });
        REQUIRE(error);
        const std::string text = error->what();
        const auto from = text.find("should have ") + 12;
        return text.substr(from, text.find(';') - from);
    };
    CHECK(wanted("F07F7F0802F7") == "8");
    CHECK(wanted("F07F7F080203F7") == "8");
    CHECK(wanted("F07F7F08020301F7") == "12"); // the count is there: one note, four bytes
    CHECK(wanted("F07F7F0802037FF7") == "516");
    CHECK(wanted("F07F7F08070103F7") == "9"); // bank and program
}

TEST_CASE("Tuning message: a byte that is no data is refused wherever it stands") {
    for (const KindRow& row : message_kinds()) {
        const std::string bytes = bytes_of(dense(row.kind));
        for (const std::size_t place : {std::size_t{2}, std::size_t{5}, bytes.size() - 2}) {
            CAPTURE(row.name, place);
            std::string damaged = bytes;
            damaged[place] = static_cast<char>(damaged[place] | 0x80);
            CHECK(refusal(damaged) == "tuning_data_byte");
        }
    }
    const std::string change = support::bytes("F07F7F080200013C450000F7");
    for (std::size_t place = 5; place + 1 < change.size(); ++place) { // key and word too
        std::string damaged = change;
        damaged[place] = '\xFF';
        CHECK(refusal(damaged) == "tuning_data_byte");
    }
}

TEST_CASE("Tuning message: others of the same family are told apart") {
    CHECK_FALSE(carries_tuning(support::bytes("F07E7F080000F7"))); // a request
    CHECK_FALSE(carries_tuning(support::bytes("F07E7F0901F7")));
    CHECK_FALSE(carries_tuning(support::bytes("F041100801F7")));
    CHECK_FALSE(carries_tuning(support::bytes("F0F7")));
}
