#include <sectio/base/argument.hpp>
#include <sectio/interval/prime_list.hpp>

#include <fmt/format.h>

#include <cstddef>

namespace sectio {

std::vector<unsigned> primes_up_to(unsigned limit) {
    if (limit > most_sieved)
        refuse_argument("a limit of primes", fmt::format("at most {}", most_sieved),
                        fmt::to_string(limit));
    std::vector<bool> composite(std::size_t{limit} + 1);
    std::vector<unsigned> primes;
    for (std::size_t n = 2; n <= limit; ++n) {
        if (composite[n])
            continue;
        primes.push_back(static_cast<unsigned>(n));
        for (std::size_t multiple = n * n; multiple <= limit; multiple += n)
            composite[multiple] = true;
    }
    return primes;
}

} // namespace sectio
