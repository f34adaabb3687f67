#include <sectio/base/text_cursor.hpp>
#include <sectio/desk/request.hpp>

#include <fmt/format.h>
#include <sys/random.h>

#include <algorithm>
#include <cerrno>
#include <iterator>
#include <system_error>

namespace sectio::desk {

namespace {

/// Equal, in a time that does not tell where they differ.
bool same_secret(std::string_view a, std::string_view b) {
    if (a.size() != b.size())
        return false;
    unsigned different = 0;
    for (std::size_t i = 0; i < a.size(); ++i)
        different |= static_cast<unsigned>(a[i] ^ b[i]);
    return different == 0;
}

bool is_utf8(std::string_view text) {
    try {
        TextCursor(text, {});
        return true;
    } catch (const Error&) {
        return false;
    }
}

bool is_control(char c) {
    return (c >= 0 && c < ' ') || c == '\x7F';
}

/// The first `bytes` bytes, or fewer where they would end inside a character.
std::string cut(std::string text, std::size_t bytes) {
    while (bytes > 0 && (text[bytes] & 0xC0) == 0x80)
        --bytes;
    text.resize(bytes);
    return text;
}

} // namespace

std::string Request::argument(const std::string& name) const {
    const auto found = arguments.find(name);
    return found == arguments.end() ? "" : found->second;
}

std::vector<std::string> Request::all(const std::string& name) const {
    std::vector<std::string> values;
    const auto [begin, end] = arguments.equal_range(name);
    std::transform(begin, end, std::back_inserter(values), [](const auto& p) { return p.second; });
    return values;
}

Gate::Gate(int port, std::string secret, bool from_own_site)
    : origin_(fmt::format("http://127.0.0.1:{}", port)), secret_(std::move(secret)),
      from_own_site_(from_own_site) {}

std::optional<std::string> Gate::admitted(const Request& request) const {
    constexpr std::string_view scheme = "http://";
    const bool own_host = request.host && *request.host == origin_.substr(scheme.size());
    const bool own_origin = !request.origin || *request.origin == origin_;
    const bool own_site = !request.site || *request.site == "same-origin" || *request.site == "none"
                          || (from_own_site_ && *request.site == "same-site");
    if (!own_host || !own_origin || !own_site || !request.path.starts_with('/'))
        return std::nullopt;
    const std::size_t end = request.path.find('/', 1);
    if (end == std::string::npos || !same_secret(request.path.substr(1, end - 1), secret_))
        return std::nullopt;
    return request.path.substr(end + 1);
}

std::string random_digits(std::size_t bytes) {
    std::string digits;
    for (std::size_t i = 0; i < bytes; ++i) {
        unsigned char byte = 0;
        if (getrandom(&byte, 1, 0) != 1)
            throw std::system_error(errno, std::generic_category(), "getrandom");
        digits += fmt::format("{:02x}", byte);
    }
    return digits;
}

std::string safe_file_name(std::string_view name) {
    constexpr std::size_t most_bytes = 120;
    name.remove_prefix(name.find_last_of("/\\") + 1); // the whole name where there is none
    const bool letters = is_utf8(name);
    std::string safe;
    for (const char c : name)
        safe += is_control(c) || (!letters && static_cast<signed char>(c) < 0) ? '_' : c;
    if (safe.empty() || safe[0] == '.' || safe[0] == '-')
        safe = "_" + safe;
    if (safe.size() <= most_bytes)
        return safe;
    std::string ending = std::filesystem::path(safe).extension().string();
    if (ending.size() > most_bytes / 2)
        ending.clear();
    return cut(std::move(safe), most_bytes - ending.size()) + ending;
}

} // namespace sectio::desk
