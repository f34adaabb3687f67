// Logarithms in fixed point beside MPFR, whose log2 is correctly rounded (source: L. Fousse and
// others, "MPFR", ACM Trans. Math. Software 33 (2007)).

#include "support/intervals.hpp"

#include <sectio/interval/fixed_log2.hpp>

#include <mpfr.h>

#include <atomic>
#include <cstdlib>
#include <random>
#include <thread>

using namespace sectio;

namespace {

/// |2^bits log2(above / below) - claimed|, to 20 places after the point and more.
double units_off(const Integer& claimed, const Integer& above, const Integer& below, long bits) {
    mpfr_t x, y;
    mpfr_inits2(bits + 1200, x, y, static_cast<mpfr_ptr>(nullptr));
    mpfr_set_z(x, above.backend().data(), MPFR_RNDN);
    mpfr_set_z(y, below.backend().data(), MPFR_RNDN);
    mpfr_div(x, x, y, MPFR_RNDN);
    mpfr_log2(x, x, MPFR_RNDN);
    mpfr_mul_2si(x, x, bits, MPFR_RNDN);
    mpfr_sub_z(x, x, claimed.backend().data(), MPFR_RNDN);
    const double off = std::abs(mpfr_get_d(x, MPFR_RNDN));
    mpfr_clears(x, y, static_cast<mpfr_ptr>(nullptr));
    return off;
}

/// From 1 up to 2^bits.
Integer random_number(std::mt19937_64& random, std::uint64_t bits) {
    Integer n = 0;
    for (std::uint64_t done = 0; done < bits; done += 64)
        n = (n << 64) + random();
    return n % (Integer(1) << bits) + 1;
}

std::atomic<long> held{0}; ///< bytes that GMP and MPFR asked for and did not give back

/// Counts what GMP and MPFR hold while it lives.
struct CountedMemory {
    CountedMemory() {
        mp_set_memory_functions(
            [](std::size_t size) {
                held += static_cast<long>(size);
                return std::malloc(size);
            },
            [](void* place, std::size_t before, std::size_t size) {
                held += static_cast<long>(size) - static_cast<long>(before);
                return std::realloc(place, size);
            },
            [](void* place, std::size_t size) {
                held -= static_cast<long>(size);
                std::free(place);
            });
    }
    ~CountedMemory() { mp_set_memory_functions(nullptr, nullptr, nullptr); }
};

} // namespace

TEST_CASE("A thread that asks for a logarithm in fixed point leaves nothing behind") {
    fixed_log2(3, 2, 64); // what is made once for all threads
    const CountedMemory counted;
    const long before = held;
    std::thread([] { fixed_log2(3, 2, 64); }).join();
    CHECK(held == before);
}

TEST_CASE("A logarithm in fixed point is within its bound, which is not far too wide") {
    std::mt19937_64 random(5);
    double worst = 0;
    for (int i = 0; i < 2000; ++i) {
        const long bits = 1 + static_cast<long>(random() % fixed_log2_bits);
        const Integer below = random_number(random, random() % 700);
        const Integer above = i % 3 == 0   ? below + Integer(random() % 9)
                              : i % 3 == 1 ? below * Integer(random() % 9 + 1) + Integer(1)
                                           : random_number(random, random() % 700);
        const double off = units_off(fixed_log2(above, below, bits), above, below, bits);
        CAPTURE(i, bits, above, below);
        CHECK(off < std::ldexp(1, fixed_log2_error));
        worst = std::max(worst, off);
    }
    CHECK(worst > std::ldexp(1, fixed_log2_error - 4));
}

TEST_CASE("Logarithms in fixed point at the ends of their range") {
    const Integer large = (Integer(1) << 4096) - 1;
    for (const long bits : {1L, 19L, 20L, 64L, fixed_log2_bits}) {
        CAPTURE(bits);
        CHECK(units_off(fixed_log2(1, 1, bits), 1, 1, bits) < 128);
        CHECK(units_off(fixed_log2(large, 1, bits), large, 1, bits) < 128);
        CHECK(units_off(fixed_log2(1, large, bits), 1, large, bits) < 128);
        CHECK(units_off(fixed_log2(large, large - 1, bits), large, large - 1, bits) < 128);
    }
}
