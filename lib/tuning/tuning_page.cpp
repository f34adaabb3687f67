#include <sectio/tuning/tuning_page.hpp>

#include <fmt/format.h>

namespace sectio::tuning {

namespace {

using page::Column, page::ColumnKind, page::Cell, page::Fact;

/// Finer than a step of any message.
constexpr int fine_digits = 4;

std::string hex(std::string_view bytes) {
    std::string text;
    for (const char c : bytes)
        text += fmt::format("{}{:02X}", text.empty() ? "" : " ", static_cast<unsigned char>(c));
    return text;
}

std::string channels_text(std::uint16_t channels) {
    if (channels == 0xFFFF)
        return "all";
    std::string text;
    for (int channel = 0; channel < 16; ++channel)
        if (channels >> channel & 1)
            text += fmt::format("{}{}", text.empty() ? "" : ", ", channel + 1);
    return text;
}

/// Numbers as on the wire, from 0.
template <bool KindRow::*Has>
Cell number_where(const TuningMessage& message, int number) {
    return row_of(message.kind).*Has ? page::count(number) : Cell();
}

page::Table message_table(const std::vector<TuningMessage>& messages) {
    page::Table table;
    table.key = "messages";
    table.heading = "Messages";
    table.add(messages, Column{"Message", ColumnKind::words}.keyed("kind"),
              [](const auto& m) { return std::string(row_of(m.kind).name); });
    table.add(messages, Column{"Sub-ID", ColumnKind::words}.keyed("sub_id"),
              [](const auto& m) { return fmt::format("08 {:02X}", row_of(m.kind).sub_id); });
    table.add(messages, Column{"Bank", ColumnKind::figure}.keyed("bank"),
              [](const auto& m) { return number_where<&KindRow::bank>(m, m.bank); });
    table.add(messages, Column{"Program", ColumnKind::figure}.keyed("program"),
              [](const auto& m) { return number_where<&KindRow::program>(m, m.program); });
    table.add(messages, Column{"Channels", ColumnKind::words}.keyed("channels"), [](const auto& m) {
        return row_of(m.kind).program ? Cell() : Cell(channels_text(m.channels));
    });
    table.add(messages, Column{"Name", ColumnKind::words}.keyed("name"),
              [](const auto& m) { return row_of(m.kind).named ? Cell(m.name) : Cell(); });
    table.add(messages, Column{"Bytes", ColumnKind::figure}.keyed("length"),
              [](const auto& m) { return page::count(bytes_of(m).size()); });
    table.add(messages, Column{}.keyed("bytes").hidden(),
              [](const auto& m) { return hex(bytes_of(m)); });
    return table;
}

/// A key as a line of the table.
struct Line {
    int key;
    long degree;
    Pitch pitch;
    std::optional<FrequencyWord> word;
    std::optional<Interval> error;
};

page::Table key_table_of(const std::vector<Line>& lines, const Pitch& tonic) {
    page::Table table;
    table.key = "keys";
    table.heading = "Keys";
    table.add(lines, Column{"Key", ColumnKind::key}.keyed("key"),
              [](const Line& l) { return page::count(l.key); });
    table.add(lines, Column{"Note", ColumnKind::note}.keyed("note"),
              [](const Line& l) { return page::Note{usual_note(l.key)}; });
    table.add(lines, Column{"Degree", ColumnKind::figure}.keyed("degree"),
              [](const Line& l) { return page::count(l.degree); });
    table.add(lines, Column{"Hz", ColumnKind::figure}.keyed("hz"),
              [](const Line& l) { return page::hertz(l.pitch).shown_with(3); });
    table.add(lines, Column{"Cents", ColumnKind::figure}.keyed("cents"),
              [&](const Line& l) { return page::cents(l.pitch - tonic); });
    table.add(lines, Column{"Deviation", ColumnKind::figure}.keyed("deviation_cents"),
              [](const Line& l) { return page::cents(l.pitch - pitch_of_key(l.key)).with_sign(); });
    table.add(lines, Column{"Word", ColumnKind::words}.keyed("word"),
              [](const Line& l) { return l.word ? Cell(l.word->text()) : Cell(); });
    table.add(lines, Column{"Error", ColumnKind::figure}.keyed("error_cents"), [](const Line& l) {
        return l.error ? Cell(page::cents(*l.error).with_sign().shown_with(fine_digits)) : Cell();
    });
    return table;
}

std::vector<Fact> scale_facts(const TunedScale& scale) {
    return {{"Scale", scale.scale().name, "name"},
            {"Tonic", scale.tonic().written(), "tonic"},
            {"", page::hertz(scale.tonic().pitch), "tonic_hz"},
            {"Reference pitch", page::hertz(scale.a4()).in("Hz").shown_with(3), "reference_hz"}};
}

/// "60 to 63, 70": runs of keys.
std::string runs(const std::vector<int>& keys) {
    std::string text;
    for (std::size_t i = 0; i < keys.size();) {
        std::size_t end = i + 1;
        while (end < keys.size() && keys[end] == keys[end - 1] + 1)
            ++end;
        text += (text.empty() ? "" : ", ") + std::to_string(keys[i]);
        if (end > i + 1)
            text += " to " + std::to_string(keys[end - 1]);
        i = end;
    }
    return text;
}

page::Paragraphs remarks_on(const Retuning& retuning) {
    page::Paragraphs remarks{"remarks", "", {}};
    if (!retuning.beyond.empty())
        remarks.paragraphs.push_back(
            {page::Role::remark, "Keys " + runs(retuning.beyond)
                                     + " would sound beyond what a message can say, and keep "
                                       "their pitch."});
    return remarks;
}

page::Page page_of(std::string title) {
    page::Page page;
    page.title = std::move(title);
    page.kind = "tuning";
    return page;
}

} // namespace

page::Page tuning_page(const TunedScale& scale, const Retuning& retuning) {
    page::Page page = page_of("Tuning of " + scale.scale().name);
    const auto worst = retuning.worst();
    page::Facts facts{"", "", scale_facts(scale)};
    facts.facts.push_back({"Worst rounding error",
                           page::cents(worst ? absolute(worst->error()) : Interval())
                               .in("cents")
                               .shown_with(fine_digits),
                           "worst_error_cents"});
    page.blocks.push_back(std::move(facts));
    page.blocks.push_back(message_table(retuning.messages));
    std::vector<Line> lines;
    for (const RetunedKey& key : retuning.keys)
        lines.push_back({key.key, scale.number(key.at.degree), key.pitch, key.word, key.error()});
    page.blocks.push_back(key_table_of(lines, scale.tonic().pitch));
    page.blocks.push_back(remarks_on(retuning));
    return page;
}

namespace {

page::Table tuning_table(const std::vector<StoredTuning>& tunings) {
    page::Table table;
    table.key = "tunings";
    table.heading = "Tunings in the file";
    table.add(tunings, Column{"Name", ColumnKind::words}.keyed("name"),
              [](const StoredTuning& t) { return t.name; });
    table.add(tunings, Column{"Bank", ColumnKind::figure}.keyed("bank"),
              [](const StoredTuning& t) { return t.channels ? Cell() : page::count(t.bank); });
    table.add(tunings, Column{"Program", ColumnKind::figure}.keyed("program"),
              [](const StoredTuning& t) { return t.channels ? Cell() : page::count(t.program); });
    table.add(tunings, Column{"Channels", ColumnKind::words}.keyed("channels"),
              [](const StoredTuning& t) {
                  return t.channels ? Cell(channels_text(t.channels)) : Cell();
              });
    return table;
}

page::Table degree_table(const TunedScale& scale) {
    page::Table table;
    table.key = "degrees";
    table.heading = "The scale";
    table.add(scale.scale().degrees, Column{"Interval", ColumnKind::words}.keyed("interval"),
              [](const Degree& d) {
                  return page::Expression{d.interval, d.written};
              });
    table.add(scale.scale().degrees, Column{"Cents", ColumnKind::figure}.keyed("cents"),
              [](const Degree& d) { return page::cents(d.interval); });
    return table;
}

} // namespace

page::Page stored_tuning_page(const TuningFile& file, const std::vector<StoredTuning>& tunings,
                              const StoredTuning& tuning, const TunedScale& scale) {
    page::Page page = page_of("Tuning read: " + scale.scale().name);
    page::Facts facts{"", "", scale_facts(scale)};
    const auto& period = scale.scale().period;
    facts.facts.push_back(
        {"Period", period ? Cell(*period) : Cell("none: the keys do not repeat"), ""});
    facts.facts.push_back({"", period ? Cell(*period) : Cell(), "period"});
    if (file.others > 0)
        facts.facts.push_back({"Other messages", page::count(file.others), "other_messages"});
    page.blocks.push_back(std::move(facts));
    page.blocks.push_back(message_table(file.messages));
    if (tunings.size() > 1)
        page.blocks.push_back(tuning_table(tunings));
    page.blocks.push_back(degree_table(scale));
    std::vector<Line> lines;
    for (int key = 0; key < key_count; ++key)
        if (const auto& pitch = tuning.keys[static_cast<std::size_t>(key)]) {
            const DegreeAt at = scale.nearest(*pitch).at;
            lines.push_back({key, scale.number(at.degree), *pitch, std::nullopt, std::nullopt});
        }
    page.blocks.push_back(key_table_of(lines, scale.tonic().pitch));
    return page;
}

} // namespace sectio::tuning
