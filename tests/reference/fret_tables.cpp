// Published fret tables, and the scales read back from them.

#include <sectio/instrument/fret_request.hpp>
#include <sectio/instrument/fret_template.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/load.hpp>

#include <support/intervals.hpp>

#include <cmath>
#include <vector>

using namespace sectio;
using support::interval;

namespace {

Length mm(const Rational& number) {
    return Length::millimetres(number);
}

const Scale& twelve_equal() {
    static const Scale scale = as_scale(EqualDivision(12));
    return scale;
}

std::vector<PlannedFret> frets_of(const Scale& scale, int length, const char* up_to) {
    FretPlanOptions options;
    options.up_to = interval(up_to);
    return plan_frets(scale, {{"", Interval(), mm(length)}}, options).boards.front().frets;
}

} // namespace

TEST_CASE("Frets of 12 equal steps on 25 inches lie where a published table has them") {
    // "Guitar bits 'n' bobs", stuphi.co.uk (2006): inches and mm to the bridge, frets 1 to 10.
    const std::vector<std::string> to_bridge = {"599.360", "565.721", "533.969", "504.000",
                                                "475.712", "449.013", "423.812", "400.025",
                                                "377.573", "356.382"};
    const std::vector<std::string> inches = {"23.597", "22.272", "21.022", "19.843", "18.729",
                                             "17.678", "16.685", "15.749", "14.865", "14.031"};
    const auto frets = frets_of(twelve_equal(), 635, "2/1");
    REQUIRE(frets.size() == 12);
    for (std::size_t i = 0; i < to_bridge.size(); ++i) {
        CHECK(StopDistance::to_bridge(mm(635), frets[i].interval).millimetres().decimal(3)
              == to_bridge[i]);
        CHECK(StopDistance::to_bridge(mm(25), frets[i].interval).millimetres().decimal(3)
              == inches[i]);
    }
}

TEST_CASE("Two octaves of 12 equal steps are the published fractions of the string") {
    // "fret positioning", noah.org (2015): factors of the string from the nut, to six digits, of
    // which the last is off by one in two; its fourth, 0.206291, has a slip in the sixth digit
    // (1 - 2^(-1/3) = 0.2062994...) and is left out.
    const std::vector<const char*> factors = {
        "0.056126", "0.109101", "0.159104", "",         "0.250847", "0.292893",
        "0.332580", "0.370039", "0.405396", "0.438769", "0.470268", "0.500000",
        "0.528063", "0.554551", "0.579552", "0.603150", "0.625423", "0.646447",
        "0.666290", "0.685020", "0.702698", "0.719385", "0.735134", "0.750000"};
    const auto frets = frets_of(twelve_equal(), 1, "4/1");
    REQUIRE(frets.size() == factors.size());
    const Rational last_digit = parse_decimal("0.000001");
    for (std::size_t i = 0; i < factors.size(); ++i) {
        if (i == 3)
            continue;
        const Rational ours = place_of(frets[i], mm(1)).millimetres().rounded(6);
        INFO(factors[i]);
        CHECK(abs(ours - parse_decimal(factors[i])) <= last_digit);
    }
}

TEST_CASE("The published fractions read back as the keys they were made for") {
    // The same table, in reverse: half a unit of its last digit is 0.0035 cents at the last fret.
    const std::vector<std::string> factors = {"0.056126", "0.292893", "0.405396", "0.735134"};
    const std::vector<std::string> cents = {"100.0", "600.0", "900.0", "2300.0"};
    for (std::size_t i = 0; i < factors.size(); ++i)
        CHECK(interval_at(mm(1), mm(parse_decimal(factors[i]))).cents(1) == cents[i]);
}

TEST_CASE("The fret constant of 12 equal steps is 17.817") {
    // M. Koch, Building Electric Guitars (2001), "Calculating fret distances": 17.817; dividing
    // by it is repeated from each fret. The rule's frets miss those of 12 equal steps by less than
    // a hundredth of a cent each.
    const Rational constant = parse_decimal("17.817");
    Rational left(650);
    for (int fret = 1; fret <= 12; ++fret) {
        left -= left / constant;
        const Interval miss = interval_at(mm(650), mm(650 - left)) - Interval::from_steps(fret, 12);
        CHECK(absolute(miss) < interval("0.01c") * Rational(fret));
    }
    const Rational first =
        StopDistance::from_nut(mm(1), interval("1of12")).millimetres().rounded(12);
    CHECK(decimal(1 / first, 3) == "17.817");
}

TEST_CASE("The rule of 18 makes twelve semitones of 18/17 and misses the octave") {
    // V. Galilei, Dialogo della musica antica et della moderna (Florence 1581), p. 49: semitones of
    // 18:17 on the lute. J. M. Barbour, Tuning and Temperament (1951), 57, has them at 99 cents and
    // the octave at 1187 (both from memory). The rule as workshops knew it: R. M. Mottola, "Was the
    // Rule of 18 Good Enough?", American Lutherie 130 (2017).
    Rational place(0);
    for (int fret = 1; fret <= 12; ++fret) {
        place += (612 - place) / 18;
        CHECK(interval_at(mm(612), mm(place)) == Integer(fret) * interval("18/17"));
    }
    CHECK(interval("18/17").cents(0) == "99");
    CHECK(interval_at(mm(612), mm(place)).cents(0) == "1187");
    Scale scale = parse_degrees("18/17", "rule of 18");
    scale.period = interval("18/17");
    scale.degrees.resize(1);
    const auto frets = frets_of(scale, 612, "2/1");
    REQUIRE(frets.size() == 12);
    CHECK(place_of(frets.front(), mm(612)).millimetres().decimal(3) == "34.000");
    CHECK(place_of(frets.back(), mm(612)).exact() == mm(place));
}

TEST_CASE("Dowland's compasses give the ratios that his frets are known by") {
    // R. Dowland, Varietie of Lute-Lessons (London 1610), "Of fretting the lute" (Oxford Text
    // Archive A20716): the seventh fret at a third, the first at 2/11 of that, the second at 1/3 of
    // it, the fifth at a quarter, the sixth midway between fifth and seventh, the third 4 1/2 times
    // a third of the first from the first, the fourth midway between third and fifth.
    // Ratios: posts on these frets to the Tuning List, 20 March 1998.
    const Rational seventh(1, 3), fifth(1, 4);
    const Rational first = seventh * Rational(2, 11), second = seventh / 3;
    const Rational third = first + first / 3 * Rational(9, 2);
    const Rational fourth = (third + fifth) / 2, sixth = (fifth + seventh) / 2;
    const std::vector<Rational> places = {first, second, third, fourth, fifth, sixth, seventh};
    const std::vector<const char*> ratios = {"33/31", "9/8",   "33/28", "264/211",
                                             "4/3",   "24/17", "3/2"};
    for (std::size_t i = 0; i < places.size(); ++i)
        CHECK(interval_at(mm(1), mm(places[i])) == interval(ratios[i]));
}

// A neck of 686 mm and 648 mm, strings spread over 36 mm at the nut and 52 mm at the bridge, fret 7
// of 12 equal steps square to the centre line. Computed with mpmath 1.3.0 at 40 digits from the
// distances alone: the bridge's ends by root finding, each fret as the line through the two points
// measured along the outer strings, and where it meets each inner string by solving for the
// crossing; it stopped every inner string within 1e-37 cents of k/12 octave.
TEST_CASE("Slanted frets lie where the distances along both outer strings put them") {
    FretRequest request;
    request.opens = {"E2", "A2", "D3", "G3", "B3", "E4"};
    request.tonic = "E2";
    request.length = mm(686), request.last_length = mm(648);
    request.nut_spread = mm(36), request.bridge_spread = mm(52);
    request.perpendicular = 7;
    const FretSheet sheet = fret_sheet(twelve_equal(), request);
    REQUIRE(sheet.neck);
    const std::vector<const char*> lengths{"686.0000000000", "678.3697861283", "670.7541651735",
                                           "663.1536398886", "655.5687353220", "648.0000000000"};
    for (std::size_t i = 0; i < lengths.size(); ++i)
        CHECK(sheet.neck->length_at(Rational(static_cast<int>(i), 5)).decimal(10) == lengths[i]);

    const Fretboard& board = sheet.plan.boards.at(0);
    REQUIRE(board.frets.size() == 12);
    CHECK(place_of(board.frets[4], sheet.neck->first).millimetres().decimal(6) == "172.080673");
    CHECK(place_of(board.frets[4], sheet.neck->last).millimetres().decimal(6) == "162.548507");

    struct End {
        double x, y_first, y_last;
    };
    const std::vector<End> ends{{18, 0, 12.638952637167}, // the nut, then frets 1, 4, 5, 7
                                {18.4490054985, 38.4996033035, 49.0056262749},
                                {19.6503957921, 141.511815549, 146.310823783},
                                {20.0067716925, 172.068970941, 175.175071777},
                                {20.6606405833, 228.134415553, 228.134415553},
                                {22, 342.976675592, 336.614260338}, // 12, and the bridge
                                {26, 685.95335118359, 660.5895680393}};
    const auto parts = template_parts(685.95335118359);
    const auto drawings = template_drawings(sheet.plan, board, sheet.neck);
    REQUIRE(drawings.size() == parts.size());
    constexpr double middle = 75, head = 20; // of the template's page
    for (const End& end : ends) {
        CAPTURE(end.y_first);
        const bool found = [&] {
            for (std::size_t i = 0; i < parts.size(); ++i)
                for (const auto& s : drawings[i].strokes) {
                    // Lines go 4 mm on at either end, in their own direction.
                    const double length = std::hypot(s.x2 - s.x1, s.y2 - s.y1),
                                 x = 4 * (s.x2 - s.x1) / length, y = 4 * (s.y2 - s.y1) / length;
                    const auto near = [](double a, double b) { return std::abs(a - b) < 1e-8; };
                    if (near(s.x1 + x, middle - end.x) && near(s.x2 - x, middle + end.x)
                        && near(s.y1 + y, head + end.y_first - parts[i].begin)
                        && near(s.y2 - y, head + end.y_last - parts[i].begin))
                        return true;
                }
            return false;
        }();
        CHECK(found);
    }
}

TEST_CASE("Dowland's compasses on a ruler give the frets of his lute") {
    // R. Dowland, Varietie of Lute-Lessons (London 1610), as shipbrook.net/jeff/frets.html prints
    // the instructions. A place is the share of the string from the nut.
    const Rational seventh(1, 3), first = seventh * Rational(2, 11), second = seventh / 3;
    const Rational fifth(1, 4), third = first + first / 3 * Rational(9, 2);
    const Rational beyond(2, 3); // of the string lies beyond the seventh
    const std::vector<Rational> places = {first,
                                          second,
                                          third,
                                          (third + fifth) / 2,
                                          fifth,
                                          (fifth + seventh) / 2,
                                          seventh,
                                          seventh + beyond * first,
                                          seventh + beyond * second,
                                          seventh + beyond * third};
    const Scale scale = Catalogue::installed().scale("dowland-lute");
    const auto frets = frets_of(scale, 1, "99/56");
    REQUIRE(frets.size() == places.size());
    for (std::size_t i = 0; i < frets.size(); ++i)
        CHECK(frets[i].interval.ratio() == 1 / (1 - places[i]));
}
