#include "roff.hpp"

#include <regex>
#include <sstream>

namespace sectio::manual {

namespace {

/// A sign at the beginning of a line would make it a request.
std::string guarded(std::string text) {
    return text.starts_with('.') || text.starts_with('\'') ? "\\&" + text : text;
}

/// Bold, italic, code and links.
std::string inline_roff(const std::string& markdown) {
    static const std::regex link(R"(\[([^\]]*)\]\([^)]*\))"), code("`([^`]*)`"),
        bold(R"(\*\*([^*]*)\*\*)"), italic(R"(\*([^*\s][^*]*)\*)");
    std::string text = std::regex_replace(plain(markdown), link, "$1");
    text = std::regex_replace(text, code, "\\fB$1\\fR");
    text = std::regex_replace(text, bold, "\\fB$1\\fR");
    return guarded(std::regex_replace(text, italic, "\\fI$1\\fR"));
}

/// Turns lines into roff, with the state that a list or a block needs.
class Writer {
  public:
    void take(const std::string& line) {
        if (line.starts_with("```"))
            return fenced(!fenced_);
        if (fenced_ || line.starts_with("    "))
            return verbatim(line);
        close_block();
        if (line.starts_with("![")) // a picture
            return;
        if (line.starts_with('|'))
            return row(line);
        if (line.find_first_not_of(' ') == std::string::npos)
            text_ += pending_ ? "" : ".PP\n", pending_ = true;
        else
            prose(line);
    }
    std::string finish() {
        close_block();
        return text_;
    }

  private:
    void fenced(bool open) {
        fenced_ = open;
        if (open)
            open_block();
        else
            close_block();
    }
    void open_block() {
        if (!block_)
            text_ += ".PP\n.nf\n.RS 2\n";
        block_ = true;
    }
    void close_block() {
        if (block_)
            text_ += ".RE\n.fi\n";
        block_ = false;
    }
    void verbatim(const std::string& line) {
        open_block();
        text_ += guarded(plain(fenced_ ? line : line.substr(4))) + "\n";
        pending_ = false;
    }
    /// A row of a table: its first cell, and the others beside it.
    void row(const std::string& line) {
        static const std::regex ruler(R"(\|[-:| ]*)"), cell(R"(\| *([^|]*[^| ]) *)");
        if (std::regex_match(line, ruler))
            return;
        std::string first, others;
        for (std::sregex_iterator at(line.begin(), line.end(), cell), end; at != end; ++at)
            if (first.empty())
                first = inline_roff((*at)[1]);
            else
                others += (others.empty() ? "" : "; ") + inline_roff((*at)[1]);
        text_ += ".TP 16\n" + first + "\n" + others + "\n";
        pending_ = false;
    }
    void prose(const std::string& line) {
        const auto begin = line.find_first_not_of(' ');
        if (line.compare(begin, 2, "- ") == 0)
            text_ += ".IP \\(bu 2\n" + inline_roff(line.substr(begin + 2)) + "\n";
        else
            text_ += inline_roff(line.substr(begin)) + "\n";
        pending_ = false;
    }

    std::string text_;
    bool fenced_ = false, block_ = false, pending_ = true;
};

} // namespace

std::vector<Section> sections_of(std::string_view markdown) {
    std::vector<Section> sections(1);
    std::istringstream in{std::string(markdown)};
    bool fenced = false;
    for (std::string line; std::getline(in, line);) {
        fenced ^= line.starts_with("```");
        const auto level = line.find_first_not_of('#');
        if (!fenced && level != std::string::npos && level > 0 && line[level] == ' ')
            sections.push_back({line.substr(level + 1), static_cast<int>(level), {}});
        else
            sections.back().lines.push_back(line);
    }
    return sections;
}

std::string plain(std::string_view text) {
    std::string escaped;
    for (const char c : text)
        if (c == '\\')
            escaped += "\\e";
        else if (c == '-')
            escaped += "\\-";
        else
            escaped += c;
    return escaped;
}

std::string roff_of(const Section& section) {
    Writer writer;
    for (const std::string& line : section.lines)
        writer.take(line);
    return writer.finish();
}

} // namespace sectio::manual
