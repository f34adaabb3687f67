#include <fcntl.h>
#include <support/paths.hpp>
#include <support/process.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <sstream>
#include <stdexcept>

namespace support {

namespace {

/// In the child: standard streams to files, so that no pipe can fill and block.
[[noreturn]] void become(const std::vector<std::string>& command, const RunOptions& options,
                         const TempDir& dir) {
    const auto redirect = [&dir](const char* name, int flags, int to) {
        const int file = open((dir / name).c_str(), flags, 0600);
        if (file < 0 || dup2(file, to) < 0)
            _exit(126);
    };
    redirect("in", O_RDONLY, STDIN_FILENO);
    redirect("out", O_WRONLY | O_CREAT, STDOUT_FILENO);
    redirect("err", O_WRONLY | O_CREAT, STDERR_FILENO);
    if (options.folder && chdir(options.folder->c_str()) != 0)
        _exit(126);
    setenv("LC_ALL", "C.UTF-8", 1);
    for (const std::string& setting : options.environment) {
        const auto equals = setting.find('=');
        setenv(setting.substr(0, equals).c_str(), setting.substr(equals + 1).c_str(), 1);
    }
    std::vector<char*> arguments;
    for (const std::string& argument : command)
        arguments.push_back(const_cast<char*>(argument.c_str()));
    arguments.push_back(nullptr);
    execvp(arguments.front(), arguments.data());
    _exit(127);
}

int exit_code_of(int status) {
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

} // namespace

Outcome run(const std::vector<std::string>& command, const RunOptions& options) {
    const TempDir dir;
    write_file(dir / "in", options.input);
    const pid_t child = fork();
    if (child < 0)
        throw std::runtime_error("cannot start " + command.front());
    if (child == 0)
        become(command, options, dir);
    int status = 0;
    while (waitpid(child, &status, 0) < 0)
        if (errno != EINTR)
            throw std::runtime_error("lost " + command.front());
    return {exit_code_of(status), read_file(dir / "out"), read_file(dir / "err")};
}

Outcome run_sectio(const std::vector<std::string>& arguments, const RunOptions& options) {
    std::vector<std::string> command{sectio_binary().string()};
    command.insert(command.end(), arguments.begin(), arguments.end());
    return run(command, options);
}

bool has_program(const std::string& program) {
    std::istringstream folders(std::getenv("PATH") != nullptr ? std::getenv("PATH") : "");
    for (std::string folder; std::getline(folders, folder, ':');)
        if (access((fs::path(folder) / program).c_str(), X_OK) == 0)
            return true;
    return false;
}

std::optional<std::string> run_gp(const std::string& script) {
    if (!has_program("gp"))
        return std::nullopt;
    const Outcome outcome = run({"gp", "-q", "-f", "-s", "256M"}, {.input = script});
    if (outcome.exit_code != 0 || outcome.err.find("***") != std::string::npos)
        throw std::runtime_error("gp failed: " + outcome.err);
    return outcome.out;
}

std::optional<std::string> run_mpmath(const std::string& script) {
    // The system's Python holds the system's packages, even where another stands before it in PATH.
    for (const char* python : {"/usr/bin/python3", "python3"}) {
        if (run({python, "-c", "import mpmath"}).exit_code != 0)
            continue;
        const Outcome outcome = run({python, "-"}, {.input = script});
        if (outcome.exit_code != 0)
            throw std::runtime_error("python failed: " + outcome.err);
        return outcome.out;
    }
    return std::nullopt;
}

std::optional<std::string> run_reference_script(const std::string& name) {
    const auto file = source_dir() / "tests/reference" / name;
    return run_mpmath("import runpy\nrunpy.run_path('" + file.string()
                      + "', run_name='__main__')\n");
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);)
        lines.push_back(line);
    return lines;
}

} // namespace support
