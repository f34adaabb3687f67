#include "transcript.hpp"

#include "support/paths.hpp"
#include "support/process.hpp"

#include <cli/run.hpp>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <regex>

namespace support {

namespace {

constexpr const char* out_folder = "OUT/";

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

std::string today() {
    const std::time_t now = std::time(nullptr);
    char text[16];
    std::strftime(text, sizeof text, "%Y-%m-%d", std::localtime(&now));
    return text;
}

/// Sends what the process prints into a file for as long as the object lives.
class Captured {
  public:
    explicit Captured(const fs::path& file) {
        std::fflush(nullptr);
        std::FILE* to = std::fopen(file.c_str(), "w");
        dup2(fileno(to), STDOUT_FILENO);
        dup2(fileno(to), STDERR_FILENO);
        std::fclose(to);
    }
    ~Captured() {
        std::fflush(nullptr);
        dup2(out_, STDOUT_FILENO);
        dup2(err_, STDERR_FILENO);
        close(out_);
        close(err_);
    }
    Captured(const Captured&) = delete;
    Captured& operator=(const Captured&) = delete;

  private:
    int out_ = dup(STDOUT_FILENO), err_ = dup(STDERR_FILENO);
};

/// The numbers in a path or an attribute, in whole points, since fonts differ by less.
std::vector<long> whole_points(const std::string& text) {
    std::vector<long> numbers;
    for (std::size_t at = 0; at < text.size();) {
        char* end = nullptr;
        const double value = std::strtod(text.c_str() + at, &end);
        const auto length = static_cast<std::size_t>(end - (text.c_str() + at));
        if (length > 0)
            numbers.push_back(std::lround(value));
        at += std::max<std::size_t>(length, 1);
    }
    return numbers;
}

/// The value of an attribute, or nothing.
std::string attribute(const std::string& line, const std::string& name) {
    const std::size_t at = line.find(" " + name + "=\"");
    if (at == std::string::npos)
        return "";
    const std::size_t from = at + name.size() + 3;
    return line.substr(from, line.find('"', from) - from);
}

/// What is drawn and where, a line each: neighbouring strokes of one width, or shapes, by their
/// number and the box around them; runs of letters on one height by the place of the first and
/// their number, as far as it is of one table's cell and no line of text. The letters themselves
/// and where lines break belong to fonts. What is no drawing stays.
class Drawn {
  public:
    std::string of(const std::string& markup) {
        for (const std::string& line : lines_of(markup))
            take(line.substr(std::min(line.find_first_not_of(' '), line.size())));
        return text_;
    }

  private:
    void take(const std::string& line) {
        for (const std::string part : {"defs", "style", "script"}) {
            if (line.find("<" + part) != std::string::npos)
                skipped_ = part;
            if (skipped_ == part && line.find("</" + part + ">") != std::string::npos)
                skipped_.clear();
        }
        if (!skipped_.empty() || line.starts_with("<g") || line.starts_with("</g>"))
            return;
        if (line.starts_with("<use "))
            return letter(whole_points(attribute(line, "x")), whole_points(attribute(line, "y")));
        if (line.starts_with("<path "))
            return path(line);
        end_row();
        end_paths();
        // cairo before 1.18 names the version of SVG.
        static const std::regex version(" version=\"1\\.1\"");
        text_ += std::regex_replace(line, version, "") + "\n";
    }

    void letter(const std::vector<long>& x, const std::vector<long>& y) {
        end_paths();
        if (y != height_)
            end_row();
        height_ = y;
        constexpr long gap = 15; // points between two columns
        if (row_.empty() || x.at(0) < last_ || x.at(0) > last_ + gap)
            row_.emplace_back(x.at(0), 0);
        ++row_.back().second;
        last_ = x.at(0);
    }

    void end_row() {
        constexpr int line_of_text = 30; // letters
        if (!row_.empty())
            text_ += fmt::format("letters at {}:", height_.at(0));
        for (const auto& [x, count] : row_)
            text_ += count > line_of_text ? fmt::format(" {} text", x)
                                          : fmt::format(" {} x{}", x, count);
        text_ += row_.empty() ? "" : "\n";
        row_.clear();
    }

    void path(const std::string& line) {
        end_row();
        // In the style, or, as cairo 1.18 writes it, an attribute of its own.
        static const std::regex stroke("stroke-width[:=]\"?([0-9.]+)");
        std::smatch found;
        const std::string width =
            std::regex_search(line, found, stroke) ? "strokes " + found[1].str() : "shapes";
        if (width != width_)
            end_paths();
        width_ = width;
        ++paths_;
        const std::vector<long> points = whole_points(attribute(line, "d"));
        for (std::size_t i = 0; i + 1 < points.size(); i += 2) {
            x_.push_back(points[i]);
            y_.push_back(points[i + 1]);
        }
    }

    void end_paths() {
        if (paths_ > 0 && !x_.empty()) {
            const auto [left, right] = std::minmax_element(x_.begin(), x_.end());
            const auto [top, bottom] = std::minmax_element(y_.begin(), y_.end());
            text_ += fmt::format("{}: {} within {} {} {} {}\n", width_, paths_, *left, *top, *right,
                                 *bottom);
        }
        paths_ = 0;
        x_.clear();
        y_.clear();
    }

    std::string skipped_, width_, text_;
    std::vector<long> height_, x_, y_;
    std::vector<std::pair<long, int>> row_; ///< place of the first letter of a run, letters
    long last_ = 0;
    int paths_ = 0;
};

/// Text as it is, anything else as lines of 32 bytes, of sound the beginning.
std::string shown(const std::string& bytes, const fs::path& file) {
    constexpr std::size_t most_bytes = 2048, of_sound = 64;
    if (file.extension() == ".svg" || file.extension() == ".html")
        return Drawn().of(bytes);
    if (bytes.find('\0') == std::string::npos)
        return bytes;
    const std::size_t count =
        std::min(bytes.size(), bytes.starts_with("RIFF") ? of_sound : most_bytes);
    std::string text = fmt::format("{} bytes\n", bytes.size());
    for (std::size_t i = 0; i < count; ++i)
        text += fmt::format("{:02x}{}", static_cast<unsigned char>(bytes[i]),
                            i % 32 == 31 || i + 1 == count ? "\n" : " ");
    return text;
}

/// JSON as people write it by hand: short objects and lists on one line, and what stands beside
/// each other in an object as many to a line as fit.
std::string joined(const std::string& json) {
    constexpr std::size_t widest = 140;
    std::vector<std::string> rows;
    const auto fits = [&](const std::string& row, const std::string& part) {
        return row.size() + part.size() - part.find_first_not_of(' ') < widest;
    };
    for (const std::string& line : lines_of(json)) {
        const std::size_t first = line.find_first_not_of(' ');
        const bool closes =
            first != std::string::npos && (line[first] == '}' || line[first] == ']');
        const bool opens = line.ends_with('{') || line.ends_with('[');
        const bool follows = !rows.empty() && rows.back().find_first_not_of(' ') == first;
        if (follows && !closes && !opens && rows.back()[first] == '"' && fits(rows.back(), line))
            rows.back() += " " + line.substr(first);
        else
            rows.push_back(line);
        if (!closes)
            continue;
        auto open = rows.end() - 2; // the next above that is indented as far
        while (open->find_first_not_of(' ') != first)
            --open;
        std::string row = *open;
        for (auto part = open + 1; part != rows.end() && row.size() < widest; ++part)
            row += (row.back() == ',' ? " " : "") + part->substr(part->find_first_not_of(' '));
        if (row.size() >= widest)
            continue;
        rows.erase(open + 1, rows.end());
        rows.back() = row;
    }
    std::string text;
    for (const std::string& row : rows)
        text += row + "\n";
    return text;
}

int run_words(std::vector<std::string> words, const fs::path& says) {
    std::vector<char*> arguments;
    for (std::string& word : words)
        arguments.push_back(word.data());
    const fs::path before = fs::current_path();
    fs::current_path(source_dir());
    const Captured captured(says);
    const int code = sectio::cli::run(static_cast<int>(arguments.size()), arguments.data());
    fs::current_path(before);
    return code;
}

} // namespace

Transcript read_transcript(const std::string& text) {
    Transcript transcript;
    for (const std::string& line : lines_of(text))
        if (line.starts_with("$ "))
            transcript.commands.push_back({line.substr(2), ""});
        else if (transcript.commands.empty())
            transcript.heading += line + "\n";
        else
            transcript.commands.back().output += line + "\n";
    return transcript;
}

std::string written(const Transcript& transcript) {
    std::string text = transcript.heading;
    for (const Transcribed& each : transcript.commands)
        text += "$ " + each.command + "\n" + each.output;
    return text;
}

std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words;
    char quote = 0;
    bool inside = false;
    for (const char c : line) {
        if (quote == 0 && c == ' ') {
            inside = false;
            continue;
        }
        if (!inside)
            words.emplace_back();
        inside = true;
        if (c == quote)
            quote = 0;
        else if (quote == 0 && (c == '\'' || c == '"'))
            quote = c;
        else
            words.back() += c;
    }
    return words;
}

std::string InProcess::run(const std::string& line) {
    const TempDir said;
    const std::string folder = folder_.path().string() + "/";
    std::vector<std::string> words = words_of(line);
    for (std::string& word : words)
        word = replaced(word, out_folder, folder);
    const int code = run_words(words, said / "says");
    std::string text = read_file(said / "says");
    if (text.starts_with("{\n"))
        text = joined(text);
    text += changed_files();
    text = replaced(text, folder, out_folder);
    text = replaced(text, source_dir().string() + "/", "");
    text = replaced(replaced(text, today(), "TODAY"), "\r", "\\r");
    if (code != 0)
        text += fmt::format("(exit {})\n", code);
    return text.empty() || text.back() == '\n' ? text : text + "\n";
}

std::string InProcess::changed_files() {
    std::map<fs::path, std::string> now;
    for (const auto& entry : fs::recursive_directory_iterator(folder_.path()))
        if (entry.is_regular_file())
            now[entry.path().lexically_relative(folder_.path())] = read_file(entry.path());
    std::string text;
    for (const auto& [file, bytes] : now)
        if (const auto old = files_.find(file); old == files_.end() || old->second != bytes) {
            text += "--- " + (out_folder + file.string()) + "\n" + shown(bytes, file);
            if (text.back() != '\n')
                text += '\n';
        }
    files_ = std::move(now);
    return text;
}

} // namespace support
