#include "man_page.hpp"

#include "roff.hpp"

#include <sectio/version.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio::manual {

namespace {

std::string upper(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return text;
}

std::string heading(const Section& section) {
    return section.level > 2 ? fmt::format(".SS {}\n", plain(section.heading))
                             : fmt::format(".SH {}\n", plain(upper(section.heading)));
}

std::string options_of(const Command& command) {
    std::string text;
    for (const Option& option : command.options)
        text += fmt::format(".TP\n.B {}\n{}\n", plain(option.written), plain(option.help));
    return text;
}

/// The options of the command, and of the commands below it.
std::string all_options(const Command& command) {
    std::string text = ".SH OPTIONS\n" + options_of(command);
    for (const Command& below : command.commands)
        text += fmt::format(".SS {}\n{}.PP\n{}", plain(below.usage), plain(below.help + "\n"),
                            command.path.empty() ? "" : options_of(below));
    return text;
}

bool same(const std::string& a, const std::string& b) {
    return upper(a) == upper(b);
}

/// What `common` says of every command and the page itself does not.
std::string common_sections(const std::vector<Section>& own, const std::string& common) {
    std::string text;
    for (const Section& section : sections_of(common)) {
        const bool wanted = same(section.heading, "Precision") || same(section.heading, "Errors")
                            || same(section.heading, "Exit status");
        const bool said = std::any_of(own.begin(), own.end(), [&](const Section& other) {
            return other.level == 2 && same(other.heading, section.heading);
        });
        if (wanted && !said)
            text += heading(section) + roff_of(section);
    }
    return text;
}

} // namespace

std::string man_page(const Command& command, const std::string& document,
                     const std::string& common) {
    const std::string name = command.path.empty() ? "sectio" : "sectio-" + command.joined("-");
    const std::vector<Section> own = sections_of(document);
    std::string text =
        fmt::format(".TH {} 1 \"\" \"Sectio {}\" \"Sectio\"\n.SH NAME\n{} \\- {}\n"
                    ".SH SYNOPSIS\n.B {}\n.SH DESCRIPTION\n",
                    upper(name), version, plain(name), plain(command.help), plain(command.usage));
    bool options = false;
    for (const Section& section : own) {
        if (section.level > 1) {
            if (!std::exchange(options, true))
                text += all_options(command);
            text += heading(section);
        }
        text += roff_of(section);
    }
    if (!options)
        text += all_options(command);
    const bool shown = std::any_of(own.begin(), own.end(), [](const Section& section) {
        return same(section.heading, "Examples");
    });
    if (!command.example.empty() && !shown)
        text += ".SH EXAMPLES\n.nf\n" + plain(command.example) + "\n.fi\n";
    return text + common_sections(own, common);
}

} // namespace sectio::manual
