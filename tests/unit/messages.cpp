// All that the library can say: complete, distinct, well formed, and each of the exact engine's
// messages raised by the input beside it.

#include <sectio/approx/messages.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/comma/messages.hpp>
#include <sectio/desk/messages.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/identify/messages.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/print/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/sheet/messages.hpp>
#include <sectio/sound/messages.hpp>
#include <sectio/source/messages.hpp>
#include <sectio/tuning/messages.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

#include <functional>
#include <map>
#include <set>
#include <span>
#include <vector>

using sectio::Message;

namespace {

/// Of every room, in the order of the house.
std::vector<Message> all_messages() {
    std::vector<Message> all;
    const auto add = [&](std::span<const Message> room) {
        all.insert(all.end(), room.begin(), room.end());
    };
    add(sectio::base_messages);
    add(sectio::interval_messages);
    add(sectio::print_messages);
    add(sectio::division_messages);
    add(sectio::approx_messages);
    add(sectio::comma_messages);
    add(sectio::scale_messages);
    add(sectio::instrument_messages);
    add(sectio::measure_messages);
    add(sectio::identify_messages);
    add(sectio::score_messages);
    add(sectio::sheet_messages);
    add(sectio::tuning_messages);
    add(sectio::sound_messages);
    add(sectio::source_messages);
    add(sectio::desk_messages);
    return all;
}

} // namespace

TEST_CASE("Every message says what is wrong and what to write instead, without a period") {
    std::set<std::string_view> texts, names;
    for (const Message entry : all_messages()) {
        INFO(entry->name);
        CHECK_FALSE(entry->text.empty());
        CHECK_FALSE(entry->advice.empty());
        CHECK_FALSE(entry->text.ends_with('.'));
        CHECK_FALSE(entry->advice.ends_with('.'));
        CHECK(entry->text.find('\n') == std::string_view::npos);
        CHECK(entry->text.find("  ") == std::string_view::npos);
        CHECK(entry->advice.find("  ") == std::string_view::npos);
        CHECK(texts.insert(entry->text).second);
        CHECK(names.insert(entry->name).second);
    }
}

TEST_CASE("An error joins place, message, piece and advice in one line") {
    const sectio::Error error =
        sectio::error(sectio::message::term_too_large, "3/…", {"scale.toml", 4, 9}, 4096);
    CHECK(std::string(error.what())
          == "scale.toml:4:9: a term of more than 4096 bits is beyond the limits: `3/…`; write it "
             "as a power or a stack, such as 3^53/2^84 or 53 x 3/2");
    CHECK(std::string(error.at({"other.toml", 1, 2}).what()).starts_with("other.toml:1:2: a term"));
    CHECK(error.at({"other.toml", 1, 2}).piece() == error.piece());
    CHECK(sectio::Place{"a", 0, 3}.text() == "a:3");
    CHECK(sectio::Place{"a", 0, 0}.text() == "a");
    CHECK(sectio::Place{"", 2, 3}.text() == "2:3");
}

namespace {

using Raise = std::function<void()>;

Raise reading(std::string text) {
    return [text = std::move(text)] { sectio::parse_interval(text); };
}
Raise reading_pitch(std::string text) {
    return [text = std::move(text)] { sectio::parse_pitch(text); };
}

std::string primes_joined(int count) {
    std::string stack = "2";
    for (int n = 3; count > 1; n += 2) {
        bool prime = true;
        for (int d = 3; d * d <= n && prime; d += 2)
            prime = n % d != 0;
        if (prime) {
            stack += "+" + std::to_string(n);
            --count;
        }
    }
    return stack;
}

/// One way to each message of lib/interval.
const std::map<Message, Raise>& ways() {
    static const std::map<Message, Raise> map{
        {sectio::message::zero_term, reading("3/0")},
        {sectio::message::term_too_large, reading(std::string(1300, '9'))},
        {sectio::message::exponent_too_large, reading("3^" + std::string(100, '9'))},
        {sectio::message::zero_division, reading("1of0")},
        {sectio::message::period_not_rising, reading("1of2(1/2)")},
        {sectio::message::zero_denominator, reading("2^(1/0)")},
        {sectio::message::zero_power_of_nothing,
         [] { sectio::exact_quotient(support::interval("3/2"), sectio::Interval()); }},
        {sectio::message::unfit_argument, [] { sectio::Enclosure(0); }},
        {sectio::message::digits_out_of_range, [] { support::interval("3/2").cents(-1); }},
        {sectio::message::rounding_undecided,
         [] {
             sectio::certified_round([](long bits) {
                 const auto half = sqrt(sectio::Enclosure(sectio::Integer(2), bits));
                 return half * half / sectio::Enclosure(sectio::Integer(4), bits);
             });
         }},
        {sectio::message::order_undecided,
         [] { sectio::certified_sign([](long bits) { return sectio::Enclosure(bits); }); }},
        {sectio::message::too_many_terms,
         reading(primes_joined(sectio::limits::different_factors + 1))},
        {sectio::message::ratio_out_of_reach, [] { support::interval("3^9000").decimal(3); }},
        {sectio::message::empty_expression, reading("")},
        {sectio::message::expected_interval, reading("3/2 +")},
        {sectio::message::unexpected_text, reading("3/2 5/4")},
        {sectio::message::unknown_character, reading("?")},
        {sectio::message::not_utf8, reading("\xFF")},
        {sectio::message::decimal_without_cents, reading("1.5")},
        {sectio::message::size_needs_unit, [] { sectio::parse_size("45"); }},
        {sectio::message::note_of_another_language, reading_pitch("H4")},
        {sectio::message::decimal_comma, reading("1,5c")},
        {sectio::message::missing_parenthesis, reading("(3/2")},
        {sectio::message::missing_quote, reading("\"fifth")},
        {sectio::message::nested_too_deep,
         reading(std::string(101, '(') + "2" + std::string(101, ')'))},
        {sectio::message::expression_too_long, reading(std::string(100'001, ' '))},
        {sectio::message::expected_steps, reading("31of")},
        {sectio::message::steps_not_whole, reading("1.5of12")},
        {sectio::message::expected_denominator, reading("3/")},
        {sectio::message::expected_exponent, reading("2^")},
        {sectio::message::expected_repeated, reading("12 x")},
        {sectio::message::multiplication_sign, reading("3/2 * 2")},
        {sectio::message::unknown_interval_name, reading("no such comma")},
        {sectio::message::pitch_not_interval, reading("D4")},
        {sectio::message::expected_pitch, reading_pitch("?")},
        {sectio::message::missing_octave, reading_pitch("D")},
        {sectio::message::pitch_out_of_range, reading_pitch("D99")},
        {sectio::message::cents_need_unit, reading_pitch("D4+5")},
        {sectio::message::text_after_pitch, reading_pitch("D4 D5")},
        {sectio::message::text_after_note, [] { sectio::parse_note_name("D4"); }},
        {sectio::message::frequency_not_positive, reading_pitch("0Hz")},
        {sectio::message::expected_reference, [] { sectio::parse_reference("A4"); }},
        {sectio::message::divided_by_zero,
         [] { sectio::Interval::octave() / sectio::Rational(0); }},
        {sectio::message::interval_not_pitch, reading_pitch("3/2")},
    };
    return map;
}

} // namespace

TEST_CASE("Each message of the exact engine is raised by some input") {
    for (const Message id : sectio::interval_messages) {
        const auto way = ways().find(id);
        INFO(id->name);
        REQUIRE(way != ways().end());
        const auto error = support::error_of(way->second);
        REQUIRE(error);
        CHECK(error->id() == id);
        CHECK(std::string(error->what()).find('{') == std::string::npos); // placeholders filled
    }
}
