#pragma once
/// @file
/// Private to lib/desk: what a browser asks the desk, and the check that it is the desk's own page
/// that asks.

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::desk {

/// A request as it came. Names of headers and arguments are as HTTP has them.
struct Request {
    std::string method; ///< GET, POST, PUT
    std::string path;   ///< decoded, "/secret/job"
    std::optional<std::string> host, origin;
    std::optional<std::string> site;                   ///< Sec-Fetch-Site
    std::multimap<std::string, std::string> arguments; ///< decoded
    std::filesystem::path body;                        ///< the file that a PUT brought

    /// The first argument of this name, or nothing at all.
    std::string argument(const std::string& name) const;
    std::vector<std::string> all(const std::string& name) const;
};

/// What goes back: a text or a file.
struct Reply {
    unsigned status = 200;
    std::string type = "application/json";
    std::string text;
    std::filesystem::path file{};    ///< sent in place of `text`
    std::string saved_as{};          ///< the browser saves it by this name
    std::string policy{};            ///< Content-Security-Policy
    std::string microphone = "self"; ///< who may ask for it (Permissions Policy)
    std::string location{};          ///< where to go instead
};

/// Knows the desk's own requests. A page of another origin can make a browser ask any address; what
/// it cannot do is to know the secret, to send the Host of another name than it asked (which a name
/// that was made to point here has), or to hide its Origin (Fetch Standard, "Origin header";
/// Fetch Metadata Request Headers).
class Gate {
  public:
    /// @param from_own_site also for requests that come from another port of this computer, as
    /// those for the frames of the page do
    Gate(int port, std::string secret, bool from_own_site = false);

    /// "http://127.0.0.1:PORT".
    const std::string& origin() const { return origin_; }
    /// The address of the desk's page.
    std::string address() const { return origin_ + "/" + secret_ + "/"; }
    /// What stands after the secret in the path, "" for the page itself; nothing for a request
    /// that is not the desk's own.
    std::optional<std::string> admitted(const Request& request) const;

  private:
    std::string origin_, secret_;
    bool from_own_site_;
};

/// Twice as many hexadecimal digits as `bytes`, from the system's source of randomness.
std::string random_digits(std::size_t bytes);

/// A name for a file that was handed over: its own, without what could lead elsewhere or be taken
/// for an option. Never empty, at most 120 bytes, valid UTF-8, of one path component.
std::string safe_file_name(std::string_view name);

} // namespace sectio::desk
