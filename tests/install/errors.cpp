// Which equal divisions of the octave come nearer to the ratios of the odd limit 15 than all
// before.
#include <sectio/division/error_table.hpp>

#include <iostream>

int main() {
    const sectio::ErrorTable table(sectio::odd_limit_targets(15));
    for (const auto division : table.records(sectio::ErrorKind::max, {1, 100}))
        std::cout << division << ' ' << table.row(division).max_error_cents.decimal(3) << '\n';
}
