// A module that a host loads without knowing of Sectio: tests/install/host.py does.
#include <sectio/interval/expression.hpp>
#include <sectio/scale/catalogue.hpp>

#include <limits>
#include <string>

extern "C" {

/// The size in cents of an expression or a name; NaN where it is none.
__attribute__((visibility("default"))) double plugin_cents(const char* expression) {
    const auto names = sectio::Catalogue::installed().names();
    const auto interval = sectio::try_parse_interval(expression, names);
    return interval ? interval->cents() : std::numeric_limits<double>::quiet_NaN();
}

/// Which error the expression raises, by its name; "" for none.
__attribute__((visibility("default"))) const char* plugin_error(const char* expression) {
    static std::string id;
    try {
        sectio::parse_interval(expression);
        id.clear();
    } catch (const sectio::Error& e) {
        id = e.id()->name;
    }
    return id.c_str();
}

/// How many entries the catalogue has.
__attribute__((visibility("default"))) int plugin_entries() {
    return static_cast<int>(sectio::Catalogue::installed().all().size());
}
}
