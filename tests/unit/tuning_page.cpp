// What the command says of tuning messages: every column, several tunings, keys beyond the words.

#include <sectio/print/print.hpp>
#include <sectio/tuning/tuning_page.hpp>

#include <catch2/catch.hpp>
#include <support/bytes.hpp>
#include <support/intervals.hpp>
#include <support/json.hpp>

using namespace sectio;
using namespace sectio::tuning;
using nlohmann::json;

namespace {

json document(const page::Page& page) {
    return support::json_of(print_json(page));
}

std::string text(const page::Page& page) {
    return print_text(page);
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// The page of a scale of wide steps, a key each from key 60, so that outer keys lie beyond words.
page::Page wide_page(const std::string& degrees, const char* tonic = "C4") {
    const TunedScale scale = tuned(parse_degrees(degrees, ""), {tonic, std::nullopt});
    TuningMessage model;
    model.kind = MessageKind::bulk_dump;
    return tuning_page(scale, retune(key_table(scale, {60, {}}), model));
}

page::Page read_page(const std::vector<TuningMessage>& messages, std::size_t others = 0,
                     std::size_t place = 0) {
    const TuningFile file{messages, others};
    const std::vector<StoredTuning> tunings = stored_tunings(messages);
    const Scale scale = scale_of(tunings.at(place), "a");
    return stored_tuning_page(file, tunings, tunings.at(place), tuned(scale, {"C4", std::nullopt}));
}

TuningMessage change(int program, int key, const char* pitch) {
    TuningMessage message;
    message.kind = MessageKind::note_change;
    message.program = program;
    message.keys = {{key, FrequencyWord::nearest(support::pitch(pitch)).value()}};
    return message;
}

} // namespace

TEST_CASE("Tuning page: keys beyond the words are named in runs") {
    // Half an octave a key from C4 on key 60: words reach from C-1, ten keys down, to below G#9;
    // keys beyond 4 and 83 would lie more than 20 octaves from 1 Hz.
    CHECK(contains(text(wide_page("600c")), "Keys 4 to 49, 72 to 83 would sound beyond"));
    const json remarks = document(wide_page("600c")).at("remarks");
    REQUIRE(remarks.size() == 1);
    // 12 keys an octave from C4 reach them all.
    CHECK(document(wide_page("100c,200c,300c,400c,500c,600c,700c,800c,900c,1000c,1100c"))
              .at("remarks")
              .empty());
    // One key alone: the highest of them, 100 cents up each, lies beyond G9 and its words.
    const std::string high =
        text(wide_page("100c,200c,300c,400c,500c,600c,700c,800c,900c,1000c,1100c", "C#4"));
    CHECK(contains(high, "Keys 127 would sound beyond"));
}

TEST_CASE("Tuning page: what each kind of message has, and no more") {
    TuningMessage octave;
    octave.kind = MessageKind::octave_1;
    octave.channels = 0b1000'0000'0000'0101;
    octave.offsets[4] = -14;
    const json messages = document(read_page({octave, change(3, 60, "C4")}, 0, 0)).at("messages");
    CHECK(messages.at(0).at("kind") == "octave-1");
    CHECK(messages.at(0).at("sub_id") == "08 08");
    CHECK(messages.at(0).at("channels") == "1, 3, 16");
    CHECK(messages.at(0).at("program").is_null());
    CHECK(messages.at(0).at("bank").is_null());
    CHECK(messages.at(0).at("name").is_null());
    CHECK(messages.at(1).at("kind") == "note-change");
    CHECK(messages.at(1).at("program") == 3);
    CHECK(messages.at(1).at("channels").is_null());
    CHECK(messages.at(1).at("length") == 12);
    CHECK(support::bytes(messages.at(1).at("bytes").get<std::string>()).size() == 12);
    octave.channels = 0xFFFF;
    CHECK(document(read_page({octave})).at("messages").at(0).at("channels") == "all");
}

TEST_CASE("Tuning page: several tunings are listed, one alone is not") {
    const json one = document(read_page({change(3, 60, "C4")}));
    CHECK_FALSE(one.contains("tunings"));
    const page::Page page = read_page({change(3, 60, "C4"), change(5, 62, "D4+10c")}, 0, 1);
    const json two = document(page);
    REQUIRE(two.at("tunings").size() == 2);
    CHECK(two.at("tunings").at(0).at("program") == 3);
    CHECK(two.at("tunings").at(1).at("program") == 5);
    CHECK(two.at("tunings").at(1).at("bank") == 0);
    CHECK(contains(text(page), "Tunings in the file"));
    REQUIRE(two.at("keys").size() == 1); // of the second tuning
    CHECK(two.at("keys").at(0).at("key") == 62);
    CHECK(two.at("keys").at(0).at("note") == "D4");
    CHECK(two.at("keys").at(0).at("deviation_cents") == "9.998"); // the nearest word
    CHECK(two.at("period").is_null());
    CHECK(contains(text(page), "none: the keys do not repeat"));
}

TEST_CASE("Tuning page: messages that carry no tuning are counted where there are some") {
    const page::Page none = read_page({change(3, 60, "C4")}),
                     two = read_page({change(3, 60, "C4")}, 2);
    CHECK_FALSE(contains(text(none), "Other messages"));
    CHECK(contains(text(two), "Other messages"));
    CHECK(document(two).at("other_messages") == 2);
}
