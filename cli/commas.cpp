// sectio commas: every comma within bounds, and those that a division makes vanish.

#include "command.hpp"
#include "progress_line.hpp"

#include <sectio/approx/bound_text.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/comma/commas.hpp>
#include <sectio/comma/messages.hpp>
#include <sectio/comma/vanishing.hpp>
#include <sectio/scale/interval_report.hpp>

#include <fmt/format.h>

#include <functional>
#include <unordered_map>

namespace sectio::cli {

namespace {

struct Request {
    CommonOptions common;
    std::string primes = "13";
    std::string below = "10c", above = "0c";
    std::string max_product, max_term; ///< empty: no bound, but see below
    std::string vanishing_in;
    std::string sort = "size";
    std::optional<std::size_t> show;
};

/// Bound of the product where neither bound of the terms is given.
constexpr const char* usual_product = "2^40";

Interval size_argument(const std::string& text, const char* option) {
    return parse_size(text, {option, 0, 1}, Catalogue::installed().names());
}

std::optional<Integer> bound_argument(const std::string& text, const char* option) {
    return text.empty() ? std::nullopt : std::optional(parse_bound(text, {option, 0, 1}));
}

CommaBounds bounds_of(const Request& request) {
    CommaBounds bounds;
    PrimeChoice primes = parse_primes(request.primes, {"--primes", 0, 1});
    bounds.prime_limit = primes.limit;
    bounds.only = std::move(primes.only);
    bounds.below = size_argument(request.below, "--below");
    bounds.above = size_argument(request.above, "--above");
    const bool unbounded = request.max_product.empty() && request.max_term.empty();
    bounds.max_product =
        bound_argument(unbounded ? usual_product : request.max_product, "--max-product");
    bounds.max_term = bound_argument(request.max_term, "--max-term");
    if (!request.vanishing_in.empty())
        bounds.vanishing_in = parse_division(request.vanishing_in, {"--vanishing-in", 0, 1});
    return bounds;
}

/// 2^40 for a power of two, else digits.
std::string bound_text(const Integer& bound) {
    const std::size_t bits = bit_length(bound) - 1;
    return bits > 9 && bound == Integer(1) << static_cast<unsigned>(bits)
               ? fmt::format("2^{}", bits)
               : bound.str();
}

std::string bounds_text(const Request& request, const CommaBounds& bounds) {
    std::string text =
        fmt::format(", larger than {}, smaller than {}", request.above, request.below);
    if (bounds.max_product)
        text += ", product of both terms up to " + bound_text(*bounds.max_product);
    if (bounds.max_term)
        text += ", terms up to " + bound_text(*bounds.max_term);
    return text;
}

Json bounds_json(const CommaBounds& bounds) {
    const auto text = [](const std::optional<Integer>& bound) {
        return bound ? count(*bound) : Json();
    };
    return {{"primes", PrimeChoice{bounds.prime_limit, bounds.only}.primes()},
            {"above", to_expression(bounds.above)},
            {"below", to_expression(bounds.below)},
            {"max_product", text(bounds.max_product)},
            {"max_term", text(bounds.max_term)}};
}

/// Names of the catalogue by the interval's expression.
class Names {
  public:
    Names() {
        for (Entry& entry : Catalogue::installed().sizes())
            entries_[to_expression(*entry.interval())].push_back(std::move(entry));
    }
    const std::vector<Entry>& of(const std::string& expression) const {
        static const std::vector<Entry> none;
        const auto found = entries_.find(expression);
        return found == entries_.end() ? none : found->second;
    }

  private:
    std::unordered_map<std::string, std::vector<Entry>> entries_;
};

/// What a division makes of the commas, where one is given.
struct Vanishing {
    EqualDivision division;
    PrimeMap map;
};

std::optional<Vanishing> vanishing(const CommaBounds& bounds) {
    if (!bounds.vanishing_in)
        return std::nullopt;
    return Vanishing{*bounds.vanishing_in, PrimeMap(*bounds.vanishing_in, bounds.prime_limit)};
}

Json comma_json(const Interval& comma, const Names& names, const std::optional<Vanishing>& in,
                int digits) {
    const std::string ratio = to_expression(comma);
    Json json = {{"ratio", ratio},
                 {"factors", factors_json(comma.prime_factors())},
                 {"cents", comma.cents(digits)},
                 {"names", names_json(names.of(ratio))}};
    if (in) {
        const CommaSteps steps = steps_of_comma(comma, in->division, in->map);
        json["steps_by_primes"] = steps.by_primes ? count(*steps.by_primes) : Json();
        json["nearest_step"] = count(steps.nearest);
    }
    return json;
}

std::string comma_text(const Interval& comma, const Names& names,
                       const std::optional<Vanishing>& in, int digits) {
    const std::string ratio = to_expression(comma);
    std::string text = fmt::format("{:>{}}  {:<30} {}", comma.cents(digits), digits + 6, ratio,
                                   factors_text(comma.prime_factors()));
    if (in) {
        const CommaSteps steps = steps_of_comma(comma, in->division, in->map);
        if (steps.by_primes && *steps.by_primes != steps.nearest)
            text += fmt::format("; nearest step {}, by primes {}", steps.nearest.str(),
                                steps.by_primes->str());
    }
    for (const Entry& entry : names.of(ratio))
        text += fmt::format("; {}", entry.name);
    return text + "\n";
}

struct Answer {
    std::size_t count = 0;
    std::vector<Interval> shown;
    std::vector<Interval> basis;
};

Answer answer(const Request& request, const CommaBounds& bounds) {
    ProgressLine progress;
    auto found = commas(bounds, std::ref(progress));
    Answer result{found.size(), {}, {}};
    const std::size_t rows = std::min(found.size(), request.show.value_or(found.size()));
    if (rows > static_cast<std::size_t>(limits::listed_rows))
        throw error(message::too_many_commas, "", {}, found.size(), limits::listed_rows);
    if (request.sort == "simplicity")
        sort_by_simplicity(found);
    for (std::size_t i = 0; i < rows; ++i)
        result.shown.push_back(interval_of(found[i]));
    if (bounds.vanishing_in)
        for (const LongExponents& row :
             vanishing_basis(*bounds.vanishing_in, bounds.prime_limit, bounds.only))
            result.basis.push_back(interval_of(row));
    return result;
}

void run(const Request& request) {
    const CommaBounds bounds = bounds_of(request);
    const Answer found = answer(request, bounds);
    const auto in = vanishing(bounds);
    const Names names;
    const int digits = request.common.digits;
    if (request.common.json) {
        const auto list = [&](const std::vector<Interval>& commas) {
            Json json = Json::array();
            for (const Interval& comma : commas)
                json.push_back(comma_json(comma, names, in, digits));
            return json;
        };
        print_json({{"count", found.count},
                    {"bounds", bounds_json(bounds)},
                    {"commas", list(found.shown)},
                    {"basis", list(found.basis)}});
        return;
    }
    std::string text = fmt::format(
        "{} {} of the {}{}{}\n", found.count, found.count == 1 ? "comma" : "commas",
        PrimeChoice{bounds.prime_limit, bounds.only}.text(),
        in ? " vanish in " + division_text(in->division) : "", bounds_text(request, bounds));
    for (const Interval& comma : found.shown)
        text += comma_text(comma, names, in, digits);
    if (in)
        text += "basis of all that vanish\n";
    for (const Interval& comma : found.basis)
        text += comma_text(comma, names, in, digits);
    print(text);
}

} // namespace

void add_commas(CLI::App& app) {
    const auto request = std::make_shared<Request>();
    CLI::App* command = app.add_subcommand("commas", "every comma within bounds");
    command->add_option("--primes", request->primes,
                        "prime limit, 2 to 31, or primes joined by commas such as 2,3,7 (13)");
    command->add_option("--below", request->below, "only commas smaller than this (10c)");
    command->add_option("--above", request->above, "only commas larger than this (0c)");
    command->add_option("--max-product", request->max_product,
                        "largest numerator times denominator (2^40, unless --max-term is given)");
    command->add_option("--max-term", request->max_term, "largest numerator and denominator");
    command->add_option("--vanishing-in", request->vanishing_in,
                        "only commas that this division sends to nothing, and a basis of them all");
    command->add_option("--sort", request->sort, "by size or simplicity (size)")
        ->check(CLI::IsMember({"size", "simplicity"}));
    command->add_option("--show", request->show, "how many rows at most")->check(from_one_up());
    add_common_options(*command, request->common);
    command->callback([request] { run(*request); });
}

} // namespace sectio::cli
