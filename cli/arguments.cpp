#include "arguments.hpp"

#include <sectio/interval/stated_pitch.hpp>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace sectio::cli {

namespace {

template <typename Number>
CLI::Validator range(Number least, Number most) {
    const auto check = [=](const std::string& text) -> std::string {
        Number value{};
        const bool lies_within = CLI::detail::lexical_cast(text, value) && value >= least
                                 && value <= most; // which nan does not
        return lies_within ? "" : fmt::format("`{}` is no number from {} to {}", text, least, most);
    };
    return CLI::Validator(check, "NUMBER");
}

} // namespace

Option* Option::required(bool is) {
    option_->required(is);
    return this;
}

Option* Option::one_of(const std::vector<std::string>& words) {
    const auto check = [words](const std::string& text) -> std::string {
        return std::find(words.begin(), words.end(), text) != words.end()
                   ? ""
                   : fmt::format("`{}` is none of {}", text, fmt::join(words, ", "));
    };
    option_->check(CLI::Validator(check, CLI::IsMember(words).get_description()));
    return this;
}

Option* Option::between(int least, int most) {
    option_->check(range(least, most));
    return this;
}

Option* Option::between(double least, double most) {
    option_->check(range(least, most));
    return this;
}

Option* Option::from_one_up() {
    const auto check = [](const std::string& text) -> std::string {
        const bool whole = text.find_first_not_of("0123456789") == std::string::npos;
        return whole && text.find_first_of("123456789") != std::string::npos
                   ? ""
                   : "`" + text + "` is no whole number from 1 up";
    };
    option_->check(CLI::Validator(check, "COUNT"));
    return this;
}

Option* Option::expected(int least, int most) {
    option_->expected(least, most);
    return this;
}

Option* Option::excludes(const Option* other) {
    option_->excludes(other->option_);
    return this;
}

Option* Option::excludes(const std::string& other) {
    option_->excludes(other);
    return this;
}

Command* Command::add_subcommand(const std::string& name, const std::string& help) {
    return &commands_.emplace_back(*app_->add_subcommand(name, help));
}

template <typename T>
Option* Command::add_option(const std::string& name, T& value, const std::string& help) {
    CLI::Option* const option = app_->add_option(name, value, help);
    if (name.starts_with('-')) // as of a variable of the shell that is not set
        option->check(CLI::Validator(
            [](const std::string& text) {
                return std::string(text.empty() ? "its value is empty" : "");
            },
            ""));
    return &options_.emplace_back(option);
}

Option* Command::add_option(const std::string& name, std::optional<StatedPitch>& value,
                            const std::string& help) {
    const auto read = [&value, name](const std::string& text) {
        value = parse_tonic(text, {name});
    };
    return &options_.emplace_back(app_->add_option_function<std::string>(name, read, help));
}

Option* Command::add_option(const std::string& name, std::optional<TuningReference>& value,
                            const std::string& help) {
    const auto read = [&value, name](const std::string& text) {
        value = TuningReference(text, {name});
    };
    return &options_.emplace_back(app_->add_option_function<std::string>(name, read, help));
}

Option* Command::add_flag(const std::string& name, bool& value, const std::string& help) {
    return &options_.emplace_back(app_->add_flag(name, value, help)->disable_flag_override());
}

void Command::require_subcommand() {
    app_->require_subcommand(1);
}

void Command::callback(std::function<void()> call) {
    app_->callback(std::move(call));
}

bool Command::given(const std::string& option) const {
    return app_->count(option) > 0;
}

bool Command::calls_further() const {
    return !app_->get_subcommands().empty();
}

void Command::lacks(const std::string& argument) const {
    throw CLI::RequiredError(argument);
}

void Command::refuse_idle(std::initializer_list<const char*> options,
                          const std::string& why) const {
    for (const char* const option : options)
        if (given(option))
            throw CLI::ValidationError(option, "does nothing " + why);
}

// The types of values that commands have.
#define SECTIO_OPTION_OF(...)                                                                      \
    template Option* Command::add_option(const std::string&, __VA_ARGS__&, const std::string&)
SECTIO_OPTION_OF(int);
SECTIO_OPTION_OF(unsigned);
SECTIO_OPTION_OF(std::int64_t);
SECTIO_OPTION_OF(std::size_t);
SECTIO_OPTION_OF(double);
SECTIO_OPTION_OF(std::string);
SECTIO_OPTION_OF(std::optional<int>);
SECTIO_OPTION_OF(std::optional<unsigned>);
SECTIO_OPTION_OF(std::optional<std::int64_t>);
SECTIO_OPTION_OF(std::optional<std::size_t>);
SECTIO_OPTION_OF(std::optional<std::string>);
SECTIO_OPTION_OF(std::vector<std::string>);
#undef SECTIO_OPTION_OF

} // namespace sectio::cli
