#pragma once
/// @file
/// How a command says which arguments and options it takes. CLI11 reads them; its header, slow to
/// compile, is included where they are read and nowhere else.

#include <cstdint>
#include <deque>
#include <functional>
#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
class Option;
} // namespace CLI

namespace sectio {
class StatedPitch;
class TuningReference;
} // namespace sectio

namespace sectio::cli {

/// An option or argument, of which more can be asked.
class Option {
  public:
    explicit Option(CLI::Option* option) : option_(option) {}

    Option* required(bool is = true);
    Option* one_of(const std::vector<std::string>& words);
    Option* between(int least, int most);
    Option* between(double least, double most);
    /// A whole number from 1 up.
    Option* from_one_up();
    /// How many values it takes.
    Option* expected(int least, int most);
    /// Not together with `other`.
    Option* excludes(const Option* other);
    Option* excludes(const std::string& other);

  private:
    CLI::Option* option_;
};

/// A command, or the whole.
class Command {
  public:
    explicit Command(CLI::App& app) : app_(&app) {}
    Command(const Command&) = delete;
    Command& operator=(const Command&) = delete;

    /// Lives as long as this one.
    Command* add_subcommand(const std::string& name, const std::string& help);
    /// Puts what is given into `value`: a text, a number, an optional one, or a list of them.
    template <typename T>
    Option* add_option(const std::string& name, T& value, const std::string& help);
    /// A pitch, where a note without octave is in that of middle C, and a reference.
    Option* add_option(const std::string& name, std::optional<StatedPitch>& value,
                       const std::string& help);
    Option* add_option(const std::string& name, std::optional<TuningReference>& value,
                       const std::string& help);
    Option* add_flag(const std::string& name, bool& value, const std::string& help);
    /// One of a subcommand must be called.
    void require_subcommand();
    void callback(std::function<void()> call);

    bool given(const std::string& option) const;
    /// A subcommand of it was called.
    bool calls_further() const;
    /// Ends the call, which needs `argument`.
    [[noreturn]] void lacks(const std::string& argument) const;
    /// Ends the call where one of `options` is given, since it has nothing to do: `why` goes on
    /// from "does nothing ".
    void refuse_idle(std::initializer_list<const char*> options, const std::string& why) const;

  private:
    CLI::App* app_;
    std::deque<Option> options_;
    std::deque<Command> commands_;
};

} // namespace sectio::cli
