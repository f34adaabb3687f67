// A stack of fifths, exactly.
#include <sectio/interval/expression.hpp>
#include <sectio/interval/format.hpp>

#include <iostream>

int main() {
    const auto comma = 12 * sectio::parse_interval("3/2") - 7 * sectio::Interval::octave();
    std::cout << comma << " is " << comma.cents(6) << " cents\n";
}
