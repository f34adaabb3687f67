// sectio commas: every comma within bounds, and those that a division makes vanish.

#include "answer.hpp"
#include "command.hpp"
#include "progress_line.hpp"

#include <sectio/approx/bound_text.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/comma/commas.hpp>
#include <sectio/comma/messages.hpp>
#include <sectio/comma/tempered_out.hpp>
#include <sectio/sheet/comma_page.hpp>

#include <algorithm>
#include <functional>

namespace sectio::cli {

namespace {

struct CommasRequest {
    CommonOptions common;
    std::string primes = "13";
    std::string below = "10c", above = "0c";
    std::string max_product, max_term; ///< empty: no bound, but see below
    std::string tempered_out_in;
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

CommaBounds bounds_of(const CommasRequest& request) {
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
    if (!request.tempered_out_in.empty())
        bounds.tempered_out_in = parse_division(request.tempered_out_in, {"--vanishing-in", 0, 1});
    return bounds;
}

CommaList found_list(const CommasRequest& request, const CommaBounds& bounds) {
    ProgressLine progress;
    auto found = commas(bounds, std::ref(progress));
    CommaList result{bounds, request.above, request.below, found.size(), {}, {}};
    const std::size_t rows = std::min(found.size(), request.show.value_or(found.size()));
    if (rows > static_cast<std::size_t>(limits::listed_rows))
        throw error(message::too_many_commas, "", {}, found.size(), limits::listed_rows);
    if (request.sort == "simplicity")
        sort_by_benedetti_height(found);
    for (std::size_t i = 0; i < rows; ++i)
        result.commas.push_back(interval_of(found[i]));
    if (bounds.tempered_out_in)
        for (const LongExponents& row :
             tempered_out_basis(*bounds.tempered_out_in, bounds.prime_limit, bounds.only))
            result.basis.push_back(interval_of(row));
    return result;
}

void run(const CommasRequest& request, const Command& command) {
    check_out(request.common);
    answer(comma_page(found_list(request, bounds_of(request))), request.common, command);
}

} // namespace

void add_commas(Command& app) {
    const auto request = std::make_shared<CommasRequest>();
    Command* command = app.add_subcommand("commas", "every comma within bounds");
    command->add_option("--primes", request->primes,
                        "prime limit, 2 to 31, or primes joined by commas such as 2,3,7 (13)");
    command->add_option("--below", request->below, "only commas smaller than this (10c)");
    command->add_option("--above", request->above, "only commas larger than this (0c)");
    command->add_option("--max-product", request->max_product,
                        "largest numerator times denominator (2^40, unless --max-term is given)");
    command->add_option("--max-term", request->max_term, "largest numerator and denominator");
    command->add_option("--vanishing-in", request->tempered_out_in,
                        "only commas that this division tempers out, and a basis of them all");
    command->add_option("--sort", request->sort, "by size or simplicity (size)")
        ->one_of({"size", "simplicity"});
    command->add_option("--show", request->show, "how many rows at most")->from_one_up();
    add_common_options(*command, request->common, page_kinds());
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
