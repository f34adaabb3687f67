// Libraries that are opened when they are needed: those that are missing, or are not what their
// name says.

#include "support/errors.hpp"

#include <sectio/base/shared_library.hpp>
#include <sectio/score/messages.hpp>

using namespace sectio;

TEST_CASE("A function of a library that was opened by name") {
    const SharedLibrary library("libm.so.6", message::archive_library_missing);
    double (*const cube_root)(double) = library["cbrt"];
    CHECK(cube_root(27) == Approx(3));
}

TEST_CASE("A missing library or function is named, with what to do") {
    const auto absent = support::error_of(
        [] { SharedLibrary("libnowhere.so.1", message::archive_library_missing); });
    REQUIRE(absent);
    CHECK(absent->message().find("libnowhere.so.1") != std::string::npos);
    CHECK(absent->advice().find("libzip4") != std::string::npos);

    const SharedLibrary library("libm.so.6", message::archive_library_missing);
    const auto without = support::error_of([&] { library["no_such_function"]; });
    REQUIRE(without);
    CHECK(without->message().find("no_such_function") != std::string::npos);
}
