#pragma once
/// @file
/// Private to lib/desk: work in a process of its own, forked off the desk: it can be stopped, what
/// it breaks breaks nothing else, and it reads no file but those in its folder and Sectio's own
/// data.

#include <sectio/base/progress.hpp>

#include <sys/types.h>

#include <filesystem>
#include <functional>
#include <string>

namespace sectio::desk {

/// Does something and writes to standard output; returns an exit code.
using Work = std::function<int(const Progress&)>;

class Job {
  public:
    /// Begins `work` in `folder`, which is its current one. What it writes on standard output and
    /// standard error goes into the files `folder`.said and `folder`.trouble.
    Job(std::filesystem::path folder, const Work& work);
    Job(const Job&) = delete;
    Job& operator=(const Job&) = delete;
    /// Stops it.
    ~Job();

    bool ended();
    /// Its exit code, once it has ended; `broken` where it did not end by itself.
    int code() const { return code_; }
    static constexpr int broken = -1;
    /// The part that is done, 0 to 1.
    double done() const;
    void stop();

    const std::filesystem::path& folder() const { return folder_; }
    std::filesystem::path said() const { return folder_.string() + ".said"; }
    std::filesystem::path trouble() const { return folder_.string() + ".trouble"; }

  private:
    struct Shared;
    std::filesystem::path folder_;
    Shared* shared_;
    pid_t process_ = -1;
    int code_ = broken;
    bool ended_ = false;
};

} // namespace sectio::desk
