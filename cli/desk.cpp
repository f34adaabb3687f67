// sectio desk: the page in the browser on which files are laid and asked about.

#include "answer.hpp"
#include "command.hpp"
#include "errors.hpp"
#include "progress_line.hpp"
#include "run.hpp"

#include <sectio/desk/desk.hpp>

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <unistd.h>

#include <cstdio>

extern char** environ;

namespace sectio::cli {

namespace {

struct DeskRequest {
    std::optional<int> port;
    bool no_browser = false;
    std::vector<std::string> files;
};

/// A command in this process, whose page is printed as HTML and whose errors are JSON.
int run_command(const std::vector<std::string>& words, const Progress& progress) {
    print_pages_as(page::Format::html);
    tell_errors_as_json();
    ProgressLine::tell(progress);
    std::vector<std::string> all{"sectio"};
    all.insert(all.end(), words.begin(), words.end());
    std::vector<char*> arguments;
    for (std::string& word : all)
        arguments.push_back(word.data());
    return cli::run(static_cast<int>(arguments.size()), arguments.data());
}

/// By the desktop's own opener, which is not waited for.
void open_browser(const std::string& address) {
    posix_spawn_file_actions_t files;
    posix_spawn_file_actions_init(&files);
    for (const int descriptor : {STDOUT_FILENO, STDERR_FILENO})
        posix_spawn_file_actions_addopen(&files, descriptor, "/dev/null", O_WRONLY, 0);
    std::string program = "xdg-open", argument = address;
    char* const words[]{program.data(), argument.data(), nullptr};
    pid_t process = 0;
    posix_spawnp(&process, program.c_str(), &files, nullptr, words, environ);
    posix_spawn_file_actions_destroy(&files);
}

void run(const DeskRequest& request) {
    desk::DeskOptions options;
    options.port = request.port;
    options.files.assign(request.files.begin(), request.files.end());
    options.run = run_command;
    options.opened = [&](const std::string& address, const std::string& once) {
        print(fmt::format("The desk is open at {}\n"
                          "It serves this computer alone, and ends by its own button, by Ctrl+C, "
                          "or an hour after its last page was closed.\n",
                          address));
        if (!request.no_browser)
            open_browser(once);
    };
    desk::keep_desk(options);
}

} // namespace

void add_desk(Command& app) {
    const auto request = std::make_shared<DeskRequest>();
    Command* command =
        app.add_subcommand("desk", "all of this in the browser, without typing commands");
    command->add_option("FILE", request->files, "files that lie on the desk from the beginning");
    command->add_option("--port", request->port, "which port of this computer to use, such as 8080")
        ->between(0, 65535);
    command->add_flag("--no-browser", request->no_browser,
                      "print the address, and open no browser");
    command->callback([request] { run(*request); });
}

} // namespace sectio::cli
