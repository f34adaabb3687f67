#pragma once
/// @file
/// Private to lib/desk: one page of the desk that is open in a browser: what lies on it, and what
/// it has asked.

#include <sectio/desk/desk.hpp>
#include <sectio/desk/job.hpp>
#include <sectio/desk/question.hpp>

#include <chrono>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>

namespace sectio::desk {

/// Work that a page has asked for.
struct Asking {
    std::unique_ptr<Job> job;
    int thing = 0;                      ///< that it recognises; 0 where it is no recognition
    std::string out{};                  ///< the file in the job's folder that it makes
    std::string command{};              ///< the same by hand
    const Question* question = nullptr; ///< that it answers; null where it recognises or looks up
};

class Tab {
  public:
    /// @param folder its own; made here, and removed with the tab
    explicit Tab(std::filesystem::path folder);
    Tab(const Tab&) = delete;
    Tab& operator=(const Tab&) = delete;
    ~Tab();

    /// Takes the file `from` away to where this page's things lie, and begins to recognise it.
    /// @return the number of the work @throws Error desk_full
    int put_file(const std::filesystem::path& from, std::string_view name);
    /// The same of a typed text.
    int put_text(const std::string& text);
    void drop(int thing);
    /// Begins to look up what a text being typed may mean.
    int look(const std::string& text);
    /// Begins to answer. @throws Error desk_unfit, desk_text_long
    int ask(const Asked& asked, const RunCommand& run);
    /// Puts the file that an answer made on the desk, as put_file(). @throws Error desk_unknown
    int keep(int number);

    const std::map<int, Thing>& things() const { return things_; }
    /// @throws Error desk_unknown
    const Thing& thing(int number) const;
    const Asking& asking(int number) const;
    void stop(int number);
    /// How many works go on; what has ended is noted, and a thing that is recognised knows its
    /// kind.
    std::size_t working();
    std::uintmax_t bytes() const;

    std::chrono::steady_clock::time_point heard = std::chrono::steady_clock::now();

  private:
    int begin(const Work& work, Asking asking);
    std::string free_name(std::string_view name) const;
    std::filesystem::path place_of(const Thing& thing) const;
    int put(Thing thing);
    void settle(Asking& asking);

    std::filesystem::path folder_;
    std::map<int, Thing> things_;
    std::map<int, Asking> askings_;
    int next_ = 1;
};

} // namespace sectio::desk
