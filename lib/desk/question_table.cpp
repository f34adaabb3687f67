#include <sectio/desk/question.hpp>

namespace sectio::desk {

/// Short names that the other sources of this room do not see.
namespace table {
namespace {

using enum FieldKind;

const std::vector<std::string_view> page_endings{".pdf", ".html", ".svg", ".txt", ".csv", ".json"};
const std::vector<std::string_view> scales{"scale", "pitches", "instrument"};

std::vector<std::string_view> with(std::vector<std::string_view> first,
                                   const std::vector<std::string_view>& more) {
    first.insert(first.end(), more.begin(), more.end());
    return first;
}

const Field tonic{"--tonic", "Tonic", text, {}, "", "D4"};
const Field reference{"--reference", "Reference pitch", text, {}, "", "A4 = 442 Hz"};
const Field drone{"--drone", "Drone", text, {}, "", "D3"};
const Field paper{"--paper", "Paper", choice, {"a4", "letter", "card"}, "a4"};
const Field plain_paper{"--paper", "Paper", choice, {"a4", "letter"}, "a4"};
const Field large{"--large", "Type that is read at a metre", flag};
const Field against{"--against", "Against", text, {}, "12,53", "12,53,turkish-24"};
const Field by_scale{"--scale", "Scale", scale, {}, "", "rast"};
const Field by_system{"--system", "or a tuning system", text, {}, "", "53"};

Question identify() {
    return {"identify",
            "What is this scale?",
            {"identify"},
            {"scale", "pitches", "instrument", "score"},
            1,
            1,
            {{"--tonic", "Tonic", text, {}, "", "first, free, D4"},
             {"--among", "Only among", text, {}, "", "turkish"},
             {"--uncertainty", "Half width of each pitch", text, {}, "", "3c"},
             {"--spread", "Spread of practice", text, {}, "", "10c"},
             {"--show", "Candidates", text, {}, "5", "5"}},
            page_endings};
}

Question sheet() {
    return {
        "sheet",
        "Make a sheet",
        {"sheet"},
        scales,
        1,
        12,
        {tonic,
         reference,
         against,
         {"--pages",
          "Parts",
          parts,
          {"ruler", "table", "staff", "matrix", "tuner", "errors", "division", "beside",
           "instrument"},
          "ruler,table"},
         {"--title", "Title", text},
         {"--clef", "Clef", choice, {"auto", "treble", "octave-treble", "alto", "bass"}, "auto"},
         {"--accidentals",
          "Accidentals",
          choice,
          {"auto", "plain", "quarter", "comma", "persian"},
          "auto"},
         drone,
         paper,
         large},
        with(page_endings, {".musicxml", ".toml"})};
}

Question sheets() {
    return {"sheets",
            "A sheet of each",
            {"sheet", "--all"},
            scales,
            2,
            200,
            {tonic, reference, against, paper, large},
            {".zip"},
            "",
            ".zip"};
}

Question tune() {
    return {"tune",
            "Tune by it",
            {"sheet", "--pages", "tuner,ruler"},
            scales,
            1,
            1,
            {tonic, reference, drone, paper, large},
            page_endings};
}

Question compare() {
    return {"compare",
            "Compare",
            {"compare"},
            scales,
            1,
            40,
            {{"", "With", scale, {}, "", "just-major"}, tonic, reference},
            page_endings};
}

Question frets() {
    return {"frets",
            "Where do the frets go?",
            {"frets"},
            scales,
            1,
            1,
            {{"--length", "Length of the strings", text, {}, "", "620mm"},
             {"--strings", "Open strings", text, {}, "", "D4,A3"},
             {"--nut-spread", "Outer strings at the nut", text, {}, "", "36mm"},
             {"--bridge-spread", "Outer strings at the bridge", text, {}, "", "52mm"},
             {"--perpendicular", "Fret square to the neck", text, {}, "", "7"},
             tonic,
             reference,
             {"--up-to", "Up to", text, {}, "", "3/1"},
             {"--share", "A straight fret may cost", text, {}, "", "5c"},
             {"--compensation", "Compensation", text, {}, "", "1.5mm"},
             plain_paper},
            page_endings};
}

Question annotate() {
    return {"annotate",
            "Write cents into the score",
            {"annotate"},
            {"score"},
            1,
            1,
            {by_scale,
             by_system,
             tonic,
             reference,
             {"--as", "As", choice, {"words", "lyric"}, "words"},
             {"--places", "Digits after the point", text, {}, "", "0"},
             {"--changes", "Only where it changes", flag}},
            {".musicxml", ".mxl"},
            "-marked"};
}

Question perform() {
    return {"perform",
            "Make it a MIDI file in a scale",
            {"perform"},
            {"score", "midi"},
            1,
            1,
            {by_scale,
             by_system,
             tonic,
             reference,
             {"--by", "By", choice, {"bend", "tuning"}, "bend"},
             {"--channels", "Channels", choice, {"plain", "mpe"}, "plain"}},
            {".mid"},
            "-tuned"};
}

Question listen() {
    return {"listen",
            "Make it sound",
            {"listen"},
            {"scale", "pitches", "instrument", "interval"},
            1,
            1,
            {tonic,
             reference,
             drone,
             {"--seconds", "Seconds a note", text, {}, "", "1.6"},
             {"--alone", "Without the keys beside", flag}},
            {".wav"},
            "",
            ".wav"};
}

Question sound_score() {
    Question asked = listen();
    asked.id = "sound-score";
    asked.kinds = {"score", "midi"};
    asked.fields = {by_scale, by_system, tonic, reference, drone};
    return asked;
}

Question tuning() {
    return {"tuning",
            "Tuning data",
            {"tuning"},
            scales,
            1,
            1,
            {tonic,
             reference,
             {"--keys", "Keys", choice, {"degree", "12"}, "degree"},
             {"--anchor", "Key of the tonic", text, {}, "", "D4"}},
            with({".syx", ".mid"}, page_endings)};
}

Question read_tuning() {
    return {"read-tuning",
            "Which scale is in it?",
            {"tuning", "read"},
            {"messages", "midi"},
            1,
            1,
            {{"--tonic", "Key of the tonic", text, {}, "", "D4"}},
            with({".toml"}, page_endings)};
}

Question measure_recording() {
    return {"measure-recording",
            "Which pitches are in it?",
            {"measure", "recording"},
            {"recording", "track"},
            1,
            200,
            {tonic, reference, {"--period", "Period", text, {}, "", "2/1"}},
            with({".toml"}, page_endings)};
}

Question measure_frets() {
    return {"measure-frets",
            "Which pitches do the frets give?",
            {"measure", "frets"},
            {"instrument", "places"},
            1,
            1,
            {{"--length", "Length of the string", text, {}, "", "620mm"},
             {"--open", "Open string", text, {}, "", "D4"},
             {"--uncertainty", "Half width of each place", text, {}, "", "0.5mm"},
             reference},
            with({".toml"}, page_endings)};
}

Question measure_pitches() {
    return {"measure-pitches",
            "Take them as a tuner's readings",
            {"measure", "pitches"},
            {"pitches"},
            1,
            1,
            {tonic, reference, {"--apart", "One note within", text, {}, "", "20c"}},
            with({".toml"}, page_endings)};
}

Question samples() {
    return {"samples", "Store pitches in samples",   {"samples"}, {"recording"}, 1,
            200,       {by_scale, tonic, reference}, {".zip"}};
}

Question interval() {
    return {"interval",
            "All that is known of it",
            {"interval"},
            {"interval"},
            1,
            20,
            {{"--against", "Against", text, {}, "12,53", "12,53"}},
            page_endings};
}

Question divisions() {
    return {"divisions",
            "Which equal divisions carry it?",
            {"divisions"},
            {"scale", "interval"},
            1,
            1,
            {{"--to", "Up to", text, {}, "100", "100"}, {"--records", "Records alone", flag}},
            page_endings};
}

} // namespace

} // namespace table

const std::vector<Question>& questions() {
    using namespace table;
    static const std::vector<Question> all = [] {
        std::vector<Question> asked;
        for (const auto make : {measure_recording, measure_frets, measure_pitches, identify, sheet,
                                sheets, tune, compare, frets, annotate, perform, listen,
                                sound_score, tuning, read_tuning, samples, interval, divisions})
            asked.push_back(make());
        return asked;
    }();
    return all;
}

} // namespace sectio::desk
