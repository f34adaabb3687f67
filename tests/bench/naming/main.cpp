// How often the makam of notated pieces is named: naming FOLDER LABELS.tsv [confused|halves]
//
// FOLDER holds note tables in commas (columns note_index, code, comma53, commaAE, num, den), LABELS
// the makam of each. Prints the share named first and among three with their standard errors, the
// labels' mean, the mean logarithm of the probability of the true name, and said against true
// probability. With AMONG=1 the scales of Turkish makam alone are candidates; with FREE=1 the tonic
// of a recording is not told. The pieces are not part of the project.

#include <sectio/identify/identify.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>
#include <thread>

using namespace sectio;

namespace {

/// Labels whose makam has another id in the catalogue; first of the names that count as right.
const std::map<std::string, std::vector<std::string>> ids{
    {"acemasiran", {"acem-asiran"}},
    {"acemkurdi", {"acem-kurdi"}},
    {"nihavent", {"nihavend"}},
    {"hicaz_humayun", {"humayun"}},
    {"hicaz_uzzal", {"uzzal"}},
    {"hicaz_zirgule", {"zirguleli-hicaz"}},
    {"hisarbuselik", {"hisar-buselik"}},
    {"kurdilihicazkar", {"kurdili-hicazkar"}},
    {"muhayyerkurdi", {"muhayyer-kurdi"}},
    {"suzinak", {"suznak"}},
    {"suzinak_zirgule", {"zirguleli-suznak"}},
    {"beyati_araban", {"beyati-araban"}},
    {"sehnazbuselik", {"sehnaz-buselik"}},
    {"yeni_cargah", {"cargah"}},
    {"evic", {"evic"}},
};

std::vector<std::string> right_ids(const std::string& label) {
    const auto found = ids.find(label);
    return found == ids.end() ? std::vector<std::string>{label} : found->second;
}

Melody read_piece(const std::string& file) {
    std::ifstream input(file);
    std::string line;
    std::getline(input, line);
    Melody melody;
    melody.zero = MelodyZero::written;
    melody.in_time = true;
    while (std::getline(input, line)) {
        std::istringstream cells(line);
        long index = 0, code = 0, practised = 0, written = 0, num = 0, den = 0;
        cells >> index >> code >> practised >> written >> num >> den;
        if (written <= 0) {
            if (!melody.notes.empty() && den > 0)
                melody.notes.back().ends_phrase = true;
            continue;
        }
        if (den == 0 || num == 0)
            continue;
        WeightedPitch note;
        note.interval = Interval::octave() * Rational(Integer(written - 265), Integer(53));
        note.weight = Rational(Integer(num), Integer(den));
        melody.notes.push_back(note);
    }
    if (!melody.notes.empty())
        melody.notes.back().ends_phrase = true;
    return melody;
}

struct Piece {
    std::string file, label;
    Melody melody;
    IdentifyOptions options;
    std::vector<std::pair<std::string, double>> named;
    std::string evidence;
    double none = 0;
    std::size_t rank() const {
        const auto right = right_ids(label);
        for (std::size_t i = 0; i < named.size(); ++i)
            if (std::find(right.begin(), right.end(), named[i].first) != right.end())
                return i + 1;
        return 99;
    }
};

/// The scales of one tradition: what `identify --among turkish` looks at.
const ScaleLibrary& library() {
    static const ScaleLibrary chosen = [] {
        if (!std::getenv("AMONG"))
            return ScaleLibrary(Catalogue::installed().all());
        std::vector<Entry> entries;
        for (const Entry& entry : Catalogue::installed().all())
            if (entry.tradition().find("Turkish") != std::string::npos)
                entries.push_back(entry);
        return ScaleLibrary(entries);
    }();
    return chosen;
}

/// A pitch track, Hz a line, 0 where there is no pitch.
Piece read_track(const std::string& file, double tonic) {
    Piece piece;
    piece.melody.in_time = true;
    std::ifstream input(file);
    double hertz = 0;
    while (input >> hertz) {
        if (hertz <= 0) {
            if (!piece.melody.notes.empty())
                piece.melody.notes.back().ends_phrase = true;
            continue;
        }
        WeightedPitch note;
        note.interval = Interval::from_cents(
            Rational(Integer(std::lround(12000 * std::log2(hertz / tonic))), Integer(10)));
        piece.melody.notes.push_back(note);
    }
    piece.options.tonic.kind =
        std::getenv("FREE") ? KnownTonic::Kind::likely : KnownTonic::Kind::known;
    piece.options.tonic.at = -reference_of(piece.melody);
    return piece;
}

void name(Piece& piece) {
    IdentifyOptions options = piece.options;
    options.show = 1000;
    const Identification ranking = identify(piece.melody, library(), options);
    piece.none = ranking.none_probability;
    for (const Candidate& c : ranking.candidates)
        piece.named.emplace_back(c.scale->entry.id, c.probability);
}

bool is_of(const Piece& piece, const std::vector<std::string>& only) {
    return only.empty() || std::find(only.begin(), only.end(), piece.label) != only.end();
}

/// Of the probability that the true name was given, a millionth at least.
double mean_log(const std::vector<Piece>& pieces, const std::vector<std::string>& only) {
    double sum = 0, count = 0;
    for (const Piece& p : pieces)
        if (is_of(p, only)) {
            const std::size_t rank = p.rank();
            sum += std::log(rank < 99 ? std::max(1e-6, p.named[rank - 1].second) : 1e-6);
            ++count;
        }
    return sum / count;
}

void print_shares(const std::string& title, const std::vector<Piece>& pieces,
                  const std::vector<std::string>& only) {
    double all = 0, first = 0, three = 0;
    std::map<std::string, std::array<double, 3>> by;
    for (const Piece& p : pieces) {
        if (!is_of(p, only))
            continue;
        ++all, ++by[p.label][0];
        if (p.rank() == 1)
            ++first, ++by[p.label][1];
        if (p.rank() <= 3)
            ++three, ++by[p.label][2];
    }
    const auto error = [&](double hits) {
        const double share = hits / all;
        return 100 * std::sqrt(share * (1 - share) / all);
    };
    double mean = 0;
    for (const auto& [label, n] : by)
        mean += n[1] / n[0] / static_cast<double>(by.size());
    fmt::print("{}: {} pieces, first {:.1f} % ± {:.1f}, among three {:.1f} % ± {:.1f}, mean of the "
               "labels {:.1f} %, mean logarithm {:.3f}\n",
               title, all, 100 * first / all, error(first), 100 * three / all, error(three),
               100 * mean, mean_log(pieces, only));
    for (const auto& [label, n] : by)
        fmt::print("  {:<18}{:>4}{:>6.0f} %{:>6.0f} %\n", label, n[0], 100 * n[1] / n[0],
                   100 * n[2] / n[0]);
}

void print_reliability(const std::vector<Piece>& pieces, const std::vector<std::string>& only) {
    std::map<int, std::array<double, 3>> bins;
    for (const Piece& p : pieces) {
        if (p.named.empty() || !is_of(p, only))
            continue;
        auto& b = bins[static_cast<int>(std::min(9.0, p.named.front().second * 10))];
        ++b[0], b[1] += p.named.front().second, b[2] += p.rank() == 1;
    }
    fmt::print("said     true   pieces\n");
    double pieces_in = 0, away = 0;
    for (const auto& [bin, b] : bins) {
        fmt::print("{:.2f}     {:.2f}   {}\n", b[1] / b[0], b[2] / b[0], b[0]);
        pieces_in += b[0], away += std::abs(b[1] - b[2]);
    }
    fmt::print("mean distance of said and true by tenths {:.3f}\n", away / pieces_in);
}

void print_confused(const std::vector<Piece>& pieces) {
    std::map<std::string, std::map<std::string, int>> table;
    for (const Piece& p : pieces)
        if (p.rank() != 1 && !p.named.empty())
            ++table[p.label][p.named.front().first];
    for (const auto& [label, others] : table) {
        std::string text;
        for (const auto& [other, n] : others)
            text += fmt::format(" {} {}", n, other);
        fmt::print("{:<18}{}\n", label, text);
    }
}

} // namespace

int main(int argc, char** argv) {
    const std::string folder = argv[1], labels = argv[2];
    std::ifstream input(labels);
    std::string line;
    std::getline(input, line);
    std::vector<Piece> pieces;
    while (std::getline(input, line)) {
        std::istringstream cells(line);
        std::string file, label;
        double tonic = 0;
        cells >> file >> label >> tonic;
        Piece piece = tonic > 0 ? read_track(folder + "/" + file + ".txt", tonic) : Piece();
        if (tonic == 0)
            piece.melody = read_piece(folder + "/" + file + ".tsv");
        piece.file = file;
        piece.label = label;
        pieces.push_back(std::move(piece));
    }
    library();
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t i; (i = next++) < pieces.size();)
            name(pieces[i]);
    };
    std::thread other(work);
    work();
    other.join();
    const std::vector<std::string> many{
        "acemasiran", "beyati",   "buselik",         "hicaz", "hicazkar", "huseyni",
        "huzzam",     "karcigar", "kurdilihicazkar", "mahur", "muhayyer", "nihavent",
        "rast",       "saba",     "segah",           "ussak"};
    std::vector<std::string> rarer, thirteen; // thirteen: those of unal-2014, from memory
    for (const std::string& label : many)
        if (label != "acemasiran" && label != "buselik" && label != "karcigar")
            thirteen.push_back(label);
    for (const Piece& p : pieces)
        if (std::find(many.begin(), many.end(), p.label) == many.end()
            && std::find(rarer.begin(), rarer.end(), p.label) == rarer.end())
            rarer.push_back(p.label);
    print_shares("all", pieces, {});
    if (!rarer.empty())
        print_shares("the rarer makams", pieces, rarer);
    print_shares("makams with 16 pieces", pieces, many);
    print_reliability(pieces, many);
    print_shares("thirteen makams of the literature", pieces, thirteen);
    print_reliability(pieces, thirteen);
    fmt::print("all\n");
    print_reliability(pieces, {});
    print_confused(pieces);
    if (argc > 3)
        for (const Piece& p : pieces) {
            std::string text;
            for (std::size_t i = 0; i < std::min<std::size_t>(4, p.named.size()); ++i)
                text += fmt::format(" {} {:.2f}", p.named[i].first, p.named[i].second);
            if (p.rank() != 1)
                fmt::print("{} ({}) none {:.2f}:{}\n", p.label, p.file, p.none, text);
        }
}
