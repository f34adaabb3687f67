#pragma once
/// @file
/// The desk: a page in the browser, served on this computer alone, on which files are laid and
/// asked about. Every answer is a command's.

#include <sectio/base/limits.hpp>
#include <sectio/base/progress.hpp>

#include <chrono>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace sectio::desk {

/// Runs a command of Sectio in this process, after "sectio"; its page is printed as HTML.
using RunCommand = std::function<int(const std::vector<std::string>& words, const Progress&)>;

struct DeskOptions {
    std::optional<int> port{}; ///< without it the usual one, or where that is taken any
    std::vector<std::filesystem::path> files{}; ///< that lie on the first page
    RunCommand run{};
    /// After so long without a word of any page the desk ends, and after so long without a word of
    /// one its things go.
    std::chrono::milliseconds idle = std::chrono::minutes(limits::desk_idle_minutes);
    /// Told once, when the desk is there: the address to show, and one that opens the page a single
    /// time, for a browser whose command line others may see.
    std::function<void(const std::string& address, const std::string& once)> opened{};
};

/// The usual port: with the same one the browser finds again what it has kept.
inline constexpr int usual_port = 7312;

/// Keeps the desk until its page ends it, a signal does (interrupt, hang-up or termination), or
/// nothing was heard of any page for too long. The folder with all that was handed
/// over is removed at the end.
/// @throws Error port_taken, desk_folder, http_library_missing, cannot_read of a file
void keep_desk(const DeskOptions& options);

} // namespace sectio::desk
