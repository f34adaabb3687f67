// The commands `frets`, `measure frets` and `measure pitches`, run as a user runs them.

#include <fmt/format.h>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <regex>

using support::run_sectio;
using support::sectio_json;

namespace {

std::string example(const std::string& name) {
    return (support::data_dir() / "examples" / (name + ".toml")).string();
}

std::string contents(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// A straight line across or along a page, in points.
struct Stroke {
    double x1, y1, x2, y2;
};

/// The straight lines of a drawing that cairo wrote.
std::vector<Stroke> strokes_of(const std::string& text) {
    const std::regex path(
        R"re(fill[:=]"?none[^>]* d="M ([\d.]+) ([\d.]+) L ([\d.]+) ([\d.]+) "/>)re");
    std::vector<Stroke> found;
    for (std::sregex_iterator it(text.begin(), text.end(), path), end; it != end; ++it)
        found.push_back(
            {std::stod((*it)[1]), std::stod((*it)[2]), std::stod((*it)[3]), std::stod((*it)[4])});
    return found;
}

/// The straight lines on one page of a PDF, as poppler's pdftocairo finds them, unscaled.
std::vector<Stroke> strokes(const std::filesystem::path& pdf, const std::string& page,
                            const std::filesystem::path& svg) {
    const auto outcome = support::run({"pdftocairo", "-svg", "-noshrink", "-nocenter", "-f", page,
                                       "-l", page, pdf.string(), svg.string()});
    REQUIRE(outcome.exit_code == 0);
    return strokes_of(contents(svg));
}

constexpr double mm = 72 / 25.4;

} // namespace

TEST_CASE("frets gives places in a table and in JSON") {
    const auto outcome = run_sectio({"frets", "9/8,5/4,3/2", "--length", "612mm"});
    CHECK(outcome.exit_code == 0);
    CHECK(outcome.out.find("68.00") != std::string::npos);
    const auto json = sectio_json({"frets", "9/8,5/4,1of2", "--length", "612mm"});
    REQUIRE(json["frets"].size() == 4);
    CHECK(json["frets"][0]["degree"] == 1);
    CHECK(json["frets"][0]["cents"] == "203.910");
    CHECK(json["frets"][0]["from_nut_mm"] == "68.000");
    CHECK(json["frets"][0]["to_bridge_mm"] == "544.000");
    CHECK(json["frets"][1]["spacing_mm"] == "54.400");
    // 612 (1 - 2^(-1/2)) = 179.25064…
    CHECK(json["frets"][2]["from_nut_mm"] == "179.251");
}

TEST_CASE("frets says what a shared fret costs each string") {
    const auto json = sectio_json({"frets", "pythagorean-12", "--length", "24.5in", "--strings",
                                   "D4,A3", "--tonic", "D4", "--share", "12c"});
    REQUIRE(json["strings"].size() == 2);
    CHECK(json["strings"][1]["open"] == "A3");
    CHECK(json["strings"][1]["worst_error_cents"] == "11.730");
    CHECK(json["frets"][0]["strings"].size() == 2);
}

TEST_CASE("frets takes an instrument file for the strings and for the scale") {
    const auto planned =
        sectio_json({"frets", "equal-12", "--instrument", example("sundhall-cittern")});
    CHECK(planned["strings"].size() == 4);
    CHECK(planned["frets"].size() == 12);
    const auto own = sectio_json({"frets", example("sundhall-zither-instrument")});
    CHECK(own["frets"].size() == 7);
    CHECK(own["frets"][3]["from_nut_mm"] == "204.0");
    CHECK(own["frets"][3]["from_nut_mm_exact"] == "204.000");
}

TEST_CASE("The template in the PDF has its 100 mm line and its frets where they belong") {
    if (!support::has_program("pdftocairo"))
        SECTIO_SKIP("pdftocairo is not installed");
    const support::TempDir folder;
    const auto pdf = folder.path() / "frets.pdf";
    const auto outcome = run_sectio(
        {"frets", "9/8,5/4,4/3,3/2,5/3,15/8", "--length", "340mm", "--out", pdf.string()});
    REQUIRE(outcome.exit_code == 0);
    const auto lines = strokes(pdf, "2", folder.path() / "page.svg");
    // The only upright line of 100 mm is the check line.
    const auto upright = std::count_if(lines.begin(), lines.end(), [](const Stroke& s) {
        return std::abs(s.x1 - s.x2) < 0.01 && std::abs(std::abs(s.y1 - s.y2) - 100 * mm) < 0.01;
    });
    CHECK(upright == 1);
    // Lines across the neck, 53 mm long, from the nut on.
    std::vector<double> across;
    for (const Stroke& s : lines)
        if (std::abs(s.y1 - s.y2) < 0.01 && std::abs(std::abs(s.x1 - s.x2) - 53 * mm) < 0.1)
            across.push_back(s.y1);
    std::sort(across.begin(), across.end());
    REQUIRE(across.size() >= 5);
    // 340 mm: 9/8 at 37.778, 5/4 at 68, 4/3 at 85, 3/2 at 113.333.
    const double expected[] = {0, 37.7778, 68, 85, 113.3333};
    for (int i = 0; i < 5; ++i)
        CHECK((across[static_cast<std::size_t>(i)] - across[0]) / mm
              == Approx(expected[i]).margin(0.01));
}

TEST_CASE("frets writes SVG and CSV that hold its places") {
    const support::TempDir folder;
    const auto svg = folder.path() / "a.svg", csv = folder.path() / "a.csv";
    for (const auto& file : {svg, csv})
        REQUIRE(
            run_sectio({"frets", "equal-12", "--length", "620mm", "--out", file.string()}).exit_code
            == 0);
    const auto place = [](int fret) { return 620 * (1 - std::exp2(-fret / 12.0)); };
    const std::string table = contents(csv);
    for (int fret = 1; fret <= 12; ++fret) {
        CAPTURE(fret);
        CHECK(table.find(fmt::format(",{:.3f},", place(fret))) != std::string::npos);
    }
    std::vector<double> heights; // of lines across the neck
    for (const Stroke& s : strokes_of(contents(svg)))
        if (s.y1 == s.y2 && s.x2 - s.x1 > 45 * mm)
            heights.push_back(s.y1 / mm);
    const auto drawn = [&](double above, double below) {
        return std::any_of(heights.begin(), heights.end(), [&](double a) {
            return std::any_of(heights.begin(), heights.end(),
                               [&](double b) { return std::abs(b - a - (below - above)) < 0.01; });
        });
    };
    for (int fret = 0; fret < 12; ++fret) {
        CAPTURE(fret);
        CHECK(drawn(place(fret), place(fret + 1)));
    }
    CHECK_FALSE(drawn(place(0), place(1) + 0.1));
}

TEST_CASE("Bad requests for frets are refused with advice") {
    const auto refused = [](std::vector<std::string> arguments) {
        const auto outcome = run_sectio(std::move(arguments));
        CHECK(outcome.exit_code == 2);
        return outcome.err;
    };
    CHECK(refused({"frets", "equal-12"}).find("--length") != std::string::npos);
    CHECK(refused({"frets", "equal-12", "--length", "620"}).find("unit") != std::string::npos);
    CHECK(refused({"frets", "equal-12", "--length", "0mm"}).find("above 0") != std::string::npos);
    CHECK(refused({"measure", "frets", "700mm", "--length", "612mm"}).find("bridge")
          != std::string::npos);
    CHECK(refused({"measure", "pitches", "H4"}).find("note") != std::string::npos);
}

TEST_CASE("measure frets gives exact ratios, and half widths where a ruler was used") {
    const auto json = sectio_json(
        {"measure", "frets", "68mm", "204mm ± 0.5mm", "--length", "612mm", "--open", "D4"});
    REQUIRE(json["pitches"].size() == 3);
    CHECK(json["pitches"][1]["label"] == "fret 1");
    CHECK(json["pitches"][1]["cents"] == "203.910");
    CHECK(json["pitches"][1]["note"] == "E4");
    CHECK(json["pitches"][1]["deviation_cents"] == "3.910");
    CHECK(json["pitches"][1]["uncertainty_cents"].is_null());
    CHECK(json["pitches"][2]["cents"] == "702");
    CHECK(json["pitches"][2]["uncertainty_cents"] == "3");
}

TEST_CASE("measure frets reads both sides, spacings, inches and tables") {
    const auto sides = sectio_json({"measure", "frets", "68mm : 544mm"});
    CHECK(sides["pitches"][1]["cents"] == "203.910");
    const auto spacings =
        sectio_json({"measure", "frets", "68mm,85mm", "--between", "--length", "612mm"});
    CHECK(spacings["pitches"][2]["cents"] == "498.045");
    const support::TempDir folder;
    const auto file = folder.path() / "frets.csv";
    std::ofstream(file) << "fret,nut_mm,uncertainty\n1,68,0.5mm\n2,153,\n";
    const auto table = sectio_json({"measure", "frets", file.string(), "--length", "612mm"});
    CHECK(table["pitches"][1]["uncertainty_cents"] == "2");
    CHECK(table["pitches"][2]["cents"] == "498.045");
}

TEST_CASE("A measurement becomes a scale file that other commands read") {
    const support::TempDir folder;
    const auto file = (folder.path() / "measured.toml").string();
    CHECK(run_sectio({"measure", "frets", example("sundhall-zither-instrument"), "--out", file})
              .exit_code
          == 0);
    const auto sheet = sectio_json({"sheet", file});
    REQUIRE(sheet["degrees"].size() == 8);
    CHECK(sheet["degrees"][4]["interval"] == "3/2");
    CHECK(sheet["tonic"] == "D4");
    const auto direct = sectio_json({"sheet", example("sundhall-zither-instrument")});
    CHECK(direct["degrees"] == sheet["degrees"]);
    const auto identified = sectio_json({"identify", example("sundhall-zither-instrument")});
    CHECK(identified["pitches"].size() == 8);
}

TEST_CASE("measure pitches puts readings of one note together") {
    const auto json = sectio_json(
        {"measure", "pitches", "E4-41c,E4-42c,E4-43c", "A4+1c,A4,A4-1c", "--tonic", "E4"});
    REQUIRE(json["pitches"].size() == 2);
    CHECK(json["pitches"][0]["readings"] == 3);
    CHECK(json["pitches"][0]["spread_cents"] == "1.000");
    // t for 4 degrees of freedom 2.78: √((2.78/√3)² + 0.5²) = 1.681, stated as 2.
    CHECK(json["pitches"][0]["uncertainty_cents"] == "2");
    CHECK(json["pitches"][0]["deviation_cents"] == "-42");
    CHECK(json["pitches"][1]["cents"] == "500");
}

TEST_CASE("What measure prints is read by the next command, exactly and with its uncertainties") {
    const auto handed = [](const std::vector<std::string>& measure) {
        const auto text = run_sectio(measure);
        REQUIRE(text.exit_code == 0);
        support::RunOptions options;
        options.input = text.out;
        const auto sheet = run_sectio({"sheet", "-", "--json"}, options);
        CAPTURE(sheet.err);
        REQUIRE(sheet.exit_code == 0);
        return support::json_of(sheet.out);
    };
    const auto frets =
        handed({"measure", "frets", "68mm", "204mm ± 0.5mm", "--length", "612mm", "--open", "E4"});
    CHECK(frets.at("tonic") == "E4");
    CHECK(frets.at("degrees").at(1).at("interval") == "9/8");
    CHECK(frets.at("degrees").at(1).at("name") == "fret 1");
    CHECK(frets.at("degrees").at(2).at("uncertainty_cents") != "0");
    const auto readings =
        handed({"measure", "pitches", "D4", "F4+50c±2c", "--reference", "A4=442Hz"});
    CHECK(readings.at("degrees").at(1).at("cents_exact") == "350.000");
    CHECK(readings.at("reference_hz") == "442.000");
    support::RunOptions options;
    options.input = run_sectio({"measure", "pitches", "D4", "E4-19c", "F4-6c", "G4", "A4+2c",
                                "B4-17c", "C5-4c"})
                        .out;
    const auto named = run_sectio({"identify", "-", "--tonic", "D", "--json"}, options);
    REQUIRE(named.exit_code == 0);
    CHECK(support::json_of(named.out).at("candidates").at(0).at("id") == "huseyni");
    CHECK(run_sectio({"measure", "pitches", "E4-41c"}).exit_code == 0); // alone it is no scale
    CHECK(run_sectio({"measure", "pitches", "D4,E4", "--json"}).out.find("next command")
          == std::string::npos);
}

TEST_CASE("Slanted frets are printed where nut, bridge and both outer strings have them") {
    const std::vector<std::string> neck{"frets",           "12",
                                        "--length",        "686mm,648mm",
                                        "--strings",       "E2,A2,D3,G3,B3,E4",
                                        "--tonic",         "E2",
                                        "--nut-spread",    "36mm",
                                        "--bridge-spread", "52mm",
                                        "--perpendicular", "7"};
    const auto json = sectio_json(neck);
    CHECK(json.at("frets").at(4).at("from_nut_mm") == "172.081");
    CHECK(json.at("frets").at(4).at("last_string_from_nut_mm") == "162.549");
    CHECK(json.at("strings").at(2).at("length_mm") == "670.754");
    CHECK(json.at("perpendicular_fret") == 7);
    const support::TempDir dir;
    auto printed = neck;
    printed.insert(printed.end(), {"--out", (dir / "neck.pdf").string()});
    REQUIRE(run_sectio(printed).exit_code == 0);
    // Rise of each line and how far it lies from fret 5, in mm, computed as in tests/reference.
    bool nut = false, fret_5 = false;
    for (const char* page : {"4", "5"})
        for (const Stroke& s : strokes(dir / "neck.pdf", page, dir / "page.svg")) {
            const double slope = (s.y2 - s.y1) / (s.x2 - s.x1);
            nut = nut || std::abs(slope - 12.638952637 / 36) < 1e-3;
            fret_5 = fret_5 || std::abs(slope - 3.106100836 / 40.013543385) < 1e-3;
        }
    CHECK(nut);
    CHECK(fret_5);
}
