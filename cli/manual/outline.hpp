#pragma once
/// @file
/// The commands as `--help` has them, for manual pages and completion: nothing is written twice.

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace sectio::manual {

/// An option, or an argument that stands by itself.
struct Option {
    std::string name;    ///< "--tonic"; of an argument "SCALE"
    std::string written; ///< with its value, "--tonic TONIC"
    std::string help;
    std::vector<std::string> values; ///< what it may be, where these are words
    bool argument = false;           ///< stands without a name before it
    bool takes_value = false;
    bool takes_scale = false; ///< ids of the catalogue fit
};

struct Command {
    std::vector<std::string> path; ///< "measure", "frets"
    std::string help, usage, example;
    std::vector<Option> options;
    std::vector<Command> commands;

    /// The path joined by `sign`.
    std::string joined(const std::string& sign) const;
    /// What stands after the last command takes an id of the catalogue.
    bool takes_scale() const;
};

/// The whole, whose own path is empty.
Command outline_of(const CLI::App& app);

} // namespace sectio::manual
