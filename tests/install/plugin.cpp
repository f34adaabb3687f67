// A module that a host loads without knowing of Sectio: tests/install/host.py does.
#include <sectio/interval/expression.hpp>
#include <sectio/scale/catalogue.hpp>

extern "C" {

/// The size in cents of an expression or a name; NaN where it is none.
__attribute__((visibility("default"))) double plugin_cents(const char* expression) {
    const auto names = sectio::Catalogue::installed().names();
    const auto interval = sectio::try_parse_interval(expression, names);
    return interval ? interval->cents() : std::numeric_limits<double>::quiet_NaN();
}

/// How many entries the catalogue has.
__attribute__((visibility("default"))) int plugin_entries() {
    return static_cast<int>(sectio::Catalogue::installed().all().size());
}
}
