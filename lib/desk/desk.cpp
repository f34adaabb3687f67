#include <sectio/base/argument.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/desk/desk.hpp>
#include <sectio/desk/messages.hpp>
#include <sectio/desk/replies.hpp>
#include <sectio/desk/server.hpp>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <utility>

namespace sectio::desk {

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

volatile std::sig_atomic_t told_to_end = 0;

void note_signal(int) {
    told_to_end = 1;
}

/// A folder that only this user may enter, removed at the end.
class PrivateFolder {
  public:
    PrivateFolder() : path_((fs::temp_directory_path() / "sectio-desk-XXXXXX").string()) {
        if (!mkdtemp(path_.data()))
            throw error(message::desk_folder, "", {path_}, std::strerror(errno));
    }
    PrivateFolder(const PrivateFolder&) = delete;
    PrivateFolder& operator=(const PrivateFolder&) = delete;
    ~PrivateFolder() {
        std::error_code ignored;
        fs::remove_all(path_, ignored);
    }
    fs::path path() const { return path_; }

  private:
    std::string path_;
};

int number_in(const Request& request, const std::string& name) {
    const std::string text = request.argument(name);
    int number = 0;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
}

class Desk {
  public:
    explicit Desk(const DeskOptions& options)
        : options_(options), folder_(), server_(service()),
          gate_(listen(options.port), random_digits(16)),
          answers_(server_.listen(0), random_digits(16), true), ticket_("/" + random_digits(16)) {}

    void keep() {
        options_.opened(gate_.address(), gate_.origin() + ticket_);
        while (!ended_ && told_to_end == 0 && Clock::now() - heard_ < options_.idle) {
            server_.run(std::chrono::milliseconds(100));
            sweep();
        }
    }

  private:
    Service service() {
        fs::create_directory(folder_.path() / "incoming");
        return {[this](const Request& request) { return admits(request); },
                [this](const Request& request) { return answer(request); },
                folder_.path() / "incoming"};
    }

    int listen(std::optional<int> port) {
        if (port)
            return server_.listen(*port);
        try {
            return server_.listen(usual_port);
        } catch (const Error&) {
            return server_.listen(0);
        }
    }

    bool is_ticket(const Request& request) const {
        Request own = request; // what the gate asks of any request, but for the secret
        own.path = "/" + gate_.address().substr(gate_.origin().size() + 1);
        return !ticket_.empty() && request.path == ticket_ && gate_.admitted(own);
    }

    bool admits(const Request& request) const {
        return is_ticket(request) || gate_.admitted(request) || answers_.admitted(request);
    }

    Reply answer(const Request& request) {
        heard_ = Clock::now();
        if (is_ticket(request)) {
            ticket_.clear();
            Reply moved{303, "text/plain", ""};
            moved.location = gate_.address();
            return moved;
        }
        try {
            if (const auto what = gate_.admitted(request))
                return request.method == "GET" ? shown(*what, request) : done(*what, request);
            return answer_reply(tab_of(request), number_in(request, "job"), gate_.origin());
        } catch (const Error& e) {
            return trouble_reply(400, e.what());
        } catch (const std::exception& e) {
            return trouble_reply(500, e.what());
        }
    }

    Reply shown(const std::string& what, const Request& request) {
        if (what == "questions")
            return questions_reply();
        if (what == "job" || what == "out") {
            Tab& tab = tab_of(request);
            tab.working();
            const int job = number_in(request, "job");
            return what == "job" ? job_reply(tab, job) : out_reply(tab, job);
        }
        return asset_reply(what, answers_.origin());
    }

    Reply done(const std::string& what, const Request& request) {
        if (what == "end") {
            ended_ = true;
            return done_reply();
        }
        if (what == "open")
            return opened(request.argument("tab"));
        Tab& tab = tab_of(request);
        if (what == "stop")
            tab.stop(number_in(request, "job"));
        else if (what == "drop")
            tab.drop(number_in(request, "thing"));
        else if (what != "alive")
            return begun(what, tab, request);
        return done_reply();
    }

    Reply begun(const std::string& what, Tab& tab, const Request& request) {
        if (working() >= limits::desk_jobs)
            throw error(message::desk_busy, "", {}, limits::desk_jobs);
        if (what == "file" && request.method == "PUT")
            return begun_reply(tab, put(tab, request));
        if (what == "text")
            return begun_reply(tab, tab.put_text(request.argument("text")));
        if (what == "look")
            return begun_reply(tab, tab.look(request.argument("text")));
        if (what == "ask")
            return begun_reply(tab, tab.ask(asked(tab, request), options_.run));
        if (what == "keep")
            return begun_reply(tab, tab.keep(number_in(request, "job")));
        return trouble_reply(404, "There is nothing here.");
    }

    int put(Tab& tab, const Request& request) {
        std::uintmax_t sum = fs::file_size(request.body);
        for (const auto& [id, each] : tabs_)
            sum += each->bytes();
        if (sum > limits::desk_bytes)
            throw error(message::desk_full, "", {}, limits::desk_bytes, "bytes");
        return tab.put_file(request.body, request.argument("name"));
    }

    static Asked asked(const Tab& tab, const Request& request) {
        Asked asked;
        const std::string id = request.argument("question");
        for (const Question& question : questions())
            if (question.id == id)
                asked.question = &question;
        if (!asked.question)
            throw error(message::desk_unknown, id, {});
        for (const std::string& number : request.all("thing"))
            asked.things.push_back(&tab.thing(std::atoi(number.c_str())));
        for (const auto& [number, thing] : tab.things())
            asked.files.push_back(thing.file);
        asked.form = request.arguments;
        asked.ending = request.argument("take");
        if (asked.ending.empty())
            asked.ending = asked.question->always;
        return asked;
    }

    /// The page that the browser has shown before, or a new one, on which the first finds the files
    /// of the command line.
    Reply opened(const std::string& known) {
        if (tabs_.contains(known))
            return tab_reply(known, *tabs_[known], answers_.address());
        if (tabs_.size() >= limits::desk_pages)
            throw error(message::desk_full, "", {}, limits::desk_pages, "pages");
        const std::string id = random_digits(8);
        Tab& tab = *(tabs_[id] = std::make_unique<Tab>(folder_.path() / id));
        for (const fs::path& file : std::exchange(options_.files, {})) {
            const fs::path copy = folder_.path() / "incoming" / "handed";
            fs::copy_file(file, copy, fs::copy_options::overwrite_existing);
            tab.put_file(copy, file.filename().string());
        }
        return tab_reply(id, tab, answers_.address());
    }

    Tab& tab_of(const Request& request) {
        const auto found = tabs_.find(request.argument("tab"));
        if (found == tabs_.end())
            throw error(message::desk_unknown, "", {});
        found->second->heard = Clock::now();
        return *found->second;
    }

    std::size_t working() {
        std::size_t count = 0;
        for (const auto& [id, tab] : tabs_)
            count += tab->working();
        return count;
    }

    /// Ended work is taken leave of, and pages that nothing was heard of.
    void sweep() {
        working();
        std::erase_if(tabs_, [this](const auto& pair) {
            return Clock::now() - pair.second->heard > options_.idle;
        });
    }

    DeskOptions options_;
    PrivateFolder folder_;
    std::map<std::string, std::unique_ptr<Tab>> tabs_;
    Server server_;
    Gate gate_;          ///< of the page
    Gate answers_;       ///< of its frames, under an origin of their own
    std::string ticket_; ///< the path that opens the page once
    bool ended_ = false;
    Clock::time_point heard_ = Clock::now();
};

} // namespace

void keep_desk(const DeskOptions& options) {
    check_function(options.run, "what runs a command");
    check_argument(options.port.value_or(0) >= 0 && options.port.value_or(0) <= 65'535, "a port",
                   "from 0 to 65535");
    for (const fs::path& file : options.files)
        if (!fs::is_regular_file(file))
            throw error(message::cannot_read, "", {file.string()}, "it is no file");
    for (const int signal : {SIGINT, SIGTERM, SIGHUP})
        std::signal(signal, note_signal);
    std::signal(SIGPIPE, SIG_IGN);
    Desk(options).keep();
}

} // namespace sectio::desk
