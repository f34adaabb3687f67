// Names that are no plain text: in every format they do no harm, and are read back.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

using support::run_sectio;

namespace {

std::string quoted(const std::string& name) {
    return nlohmann::json(name).dump(-1, ' ', true); // a TOML string has the same escapes
}

/// A scale file whose name, source, remark and degree are `name`.
std::string named(const std::string& name) {
    const std::string text = quoted(name);
    return "name = " + text + "\nsource = " + text + "\nremarks = [" + text
           + "]\ndegrees = [{ interval = \"9/8\", name = " + text + " }, \"3/2\"]\n";
}

} // namespace

TEST_CASE("A name of controls and of what is no character stands on every page") {
    const support::TempDir folder;
    const auto file = (folder / "n.toml").string();
    support::write_file(file, named("a\x01\x0c\x1b[31m\u202Eb\uFFFE\uFFFF\uFDD0<&\x7f\u0085\"'"));
    for (const char* kind : {"html", "svg", "pdf", "txt", "csv"}) {
        CAPTURE(kind);
        const auto out = (folder / "n.").string() + kind;
        const auto outcome = run_sectio({"sheet", file, "--pages", "all", "--out", out});
        CAPTURE(outcome.err);
        REQUIRE(outcome.exit_code == 0);
        if (std::string(kind) == "html" || std::string(kind) == "svg") {
            if (!support::has_program("xmllint"))
                SECTIO_SKIP("xmllint is not installed");
            const auto checked = support::run({"xmllint", "--noout", out});
            CAPTURE(checked.err);
            CHECK(checked.exit_code == 0);
        }
        if (std::string(kind) != "pdf")
            CHECK(support::read_file(out).find('\x1b') == std::string::npos);
    }
}

TEST_CASE("A name that a spreadsheet would run is marked as text in CSV, and reads back without") {
    const support::TempDir folder;
    const auto file = (folder / "n.toml").string(), out = (folder / "n.csv").string();
    for (const std::string name : {"=1+1", "+A1", "-2+3", "@SUM(A1)", "'=1", "' =1"}) {
        CAPTURE(name);
        support::write_file(file, named(name));
        REQUIRE(run_sectio({"sheet", file, "--out", out}).exit_code == 0);
        CHECK(support::read_file(out).find("\n2,'" + name + ",,9/8,") != std::string::npos);
        CHECK(support::sectio_json({"sheet", out}).at("degrees").at(1).at("name") == name);
    }
    for (const std::string name : {"-5", "-5.25", "'a", "a=b", "", "third"}) {
        CAPTURE(name);
        support::write_file(file, "name = \"n\"\ndegrees = [{ interval = \"9/8\", name = "
                                      + quoted(name) + " }, \"3/2\"]\n");
        REQUIRE(run_sectio({"sheet", file, "--out", out}).exit_code == 0);
        CHECK(support::read_file(out).find("\n2," + name + ",,9/8,") != std::string::npos);
    }
}
