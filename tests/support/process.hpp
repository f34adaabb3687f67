#pragma once
/// @file
/// Running other programs: the built command, and independent ones to compare with.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace support {

/// What a program left behind.
struct Outcome {
    int exit_code = -1; ///< 128 + the signal's number where a signal ended it
    std::string out;
    std::string err;
};

struct RunOptions {
    std::string input = {};                           ///< its standard input
    std::optional<std::filesystem::path> folder = {}; ///< its working folder
    std::vector<std::string> environment = {};        ///< NAME=VALUE added to ours
};

/// Runs `command` (first the program, looked up in PATH) to its end. Its locale is C.UTF-8.
Outcome run(const std::vector<std::string>& command, const RunOptions& options = {});

/// The built `sectio` with these arguments.
Outcome run_sectio(const std::vector<std::string>& arguments, const RunOptions& options = {});

/// True where PATH holds `program`.
bool has_program(const std::string& program);

/// PARI/GP (pari.math.u-bordeaux.fr): the output of `script`, a line a print().
std::optional<std::string> run_gp(const std::string& script);

/// Python with mpmath (mpmath.org): the output of `script`, or nothing where either is absent.
std::optional<std::string> run_mpmath(const std::string& script);

/// What a Python script of tests/reference prints, by a Python with mpmath; nothing without one.
std::optional<std::string> run_reference_script(const std::string& name);

std::vector<std::string> lines_of(const std::string& text);

} // namespace support
