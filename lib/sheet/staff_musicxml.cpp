#include <sectio/base/markup.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/sheet/staff.hpp>

#include <fmt/format.h>

namespace sectio {

namespace {

using score::StaffNote;

/// MusicXML 4.0, simple type octave.
constexpr int lowest_octave = 0, highest_octave = 9;
constexpr std::size_t notes_a_measure = 8;
constexpr int alter_digits = 6;

std::string element(std::string_view name, std::string_view content) {
    return fmt::format("<{0}>{1}</{0}>", name, content);
}

std::string attributes(score::Clef clef) {
    const score::ClefEntry& c = score::entry_of(clef);
    std::string text =
        element("sign", std::string(1, c.sign)) + element("line", std::to_string(c.line));
    if (c.octave_change != 0)
        text += element("clef-octave-change", std::to_string(c.octave_change));
    return "<attributes><divisions>1</divisions><key><fifths>0</fifths></key>"
           "<time print-object=\"no\"><senza-misura/></time>"
           + element("clef", text) + "</attributes>";
}

std::string deviation(const StaffNote& note, const page::Digits& digits) {
    const auto width =
        note.uncertainty ? std::optional<page::HalfWidth>(*note.uncertainty) : std::nullopt;
    const std::string text =
        page::cents(note.deviation).borne_by(width).with_sign().for_people(digits);
    return "<direction placement=\"above\"><direction-type>" + element("words", text)
           + "</direction-type></direction>";
}

std::string pitch(const score::WrittenPitch& written) {
    if (written.octave < lowest_octave || written.octave > highest_octave)
        throw error(message::octave_out_of_score,
                    score::text_with_octave(written, score::NameStyle::ascii), {"--tonic"});
    const Rational alter = score::semitones(written.alteration);
    const std::string exact = exact_decimal(alter);
    std::string text = element("step", std::string(1, written.step));
    if (alter != Rational(0))
        text += element("alter", exact.empty() ? decimal(alter, alter_digits) : exact);
    return element("pitch", text + element("octave", std::to_string(written.octave)));
}

std::string lyric(int line, const std::string& text) {
    return fmt::format("<lyric number=\"{}\"><syllabic>single</syllabic>{}</lyric>", line,
                       element("text", escaped(one_line(text))));
}

std::string note(const StaffNote& n, const page::Digits& digits) {
    std::string text = pitch(n.pitch) + "<duration>4</duration><type>whole</type>";
    if (n.sign != score::no_sign)
        text += element("accidental", score::all_signs()[n.sign].name);
    text += lyric(1, std::to_string(n.number));
    if (!n.name.empty())
        text += lyric(2, n.name);
    return deviation(n, digits) + "\n" + element("note", text) + "\n";
}

std::string measures(const score::StaffScale& staff, const page::Digits& digits) {
    std::string text;
    for (std::size_t i = 0; i < staff.notes.size(); ++i) {
        if (i % notes_a_measure == 0) {
            text += fmt::format("{}<measure number=\"{}\" implicit=\"yes\">\n",
                                i ? "</measure>\n" : "", i / notes_a_measure + 1);
            text += i ? "<print new-system=\"yes\"/>\n" : attributes(staff.clef) + "\n";
        }
        text += note(staff.notes[i], digits);
    }
    return text
           + "<barline location=\"right\"><bar-style>light-light</bar-style></barline>\n"
             "</measure>\n";
}

std::string identification(const Scale& scale, const std::string& date) {
    std::string text = element("software", "Sectio");
    if (!date.empty())
        text += element("encoding-date", date);
    text = element("encoding", text);
    if (!scale.source.empty())
        text += element("source", escaped(one_line(scale.source)));
    return element("identification", text) + "\n";
}

} // namespace

std::string staff_musicxml(const TunedScale& scale, const StaffOptions& options,
                           const page::Digits& digits, const std::string& date) {
    const score::StaffScale staff = score::staff_scale(scale, options.signs, options.clef);
    const std::string title = escaped(one_line(scale.scale().name));
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
           "<!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" "
           "\"http://www.musicxml.org/dtds/partwise.dtd\">\n"
           "<score-partwise version=\"4.0\">\n"
           + element("movement-title", title) + "\n" + identification(scale.scale(), date)
           + "<part-list><score-part id=\"P1\"><part-name print-object=\"no\">Scale</part-name>"
             "</score-part></part-list>\n<part id=\"P1\">\n"
           + measures(staff, digits) + "</part>\n</score-partwise>\n";
}

} // namespace sectio
