#include <sectio/base/file_access.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/desk/job.hpp>
#include <sectio/scale/data_places.hpp>

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <new>
#include <system_error>
#include <vector>

namespace sectio::desk {

/// In memory that both processes have.
struct Job::Shared {
    std::atomic<double> done = 0;
    static_assert(std::atomic<double>::is_always_lock_free);
};

namespace {

std::system_error trouble_of(const char* what) {
    return {errno, std::generic_category(), what};
}

void send_to(const std::filesystem::path& file, int descriptor) {
    const int to = open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    if (to < 0 || dup2(to, descriptor) < 0)
        throw trouble_of("open");
}

/// Leaves the child nothing of the desk but its memory.
void settle_child(const Job& job) {
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP})
        std::signal(signal, SIG_DFL);
    const int nothing = open("/dev/null", O_RDONLY);
    dup2(nothing, STDIN_FILENO);
    send_to(job.said(), STDOUT_FILENO);
    send_to(job.trouble(), STDERR_FILENO);
    close_range(STDERR_FILENO + 1, ~0U, 0);
    const rlimit size{limits::desk_bytes, limits::desk_bytes};
    setrlimit(RLIMIT_FSIZE, &size);
    std::filesystem::current_path(job.folder());
    std::vector<std::filesystem::path> open_to_it = data_places();
    open_to_it.push_back(job.folder());
    read_only_within(open_to_it);
}

} // namespace

Job::Job(std::filesystem::path folder, const Work& work) : folder_(std::move(folder)) {
    void* memory =
        mmap(nullptr, sizeof(Shared), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (memory == MAP_FAILED)
        throw trouble_of("mmap");
    shared_ = new (memory) Shared;
    std::fflush(nullptr); // else the child would write it once more
    process_ = fork();
    if (process_ < 0)
        throw trouble_of("fork");
    if (process_ > 0)
        return;
    int code = 3;
    try {
        settle_child(*this);
        code = work([this](double part) { shared_->done = part; });
    } catch (const std::exception& e) {
        std::fprintf(stderr, "%s\n", e.what());
    }
    std::fflush(nullptr);
    _exit(code);
}

Job::~Job() {
    stop();
    munmap(shared_, sizeof(Shared));
}

bool Job::ended() {
    int status = 0;
    if (!ended_ && waitpid(process_, &status, WNOHANG) == process_) {
        ended_ = true;
        code_ = WIFEXITED(status) ? WEXITSTATUS(status) : broken;
    }
    return ended_;
}

double Job::done() const {
    return shared_->done;
}

void Job::stop() {
    if (ended())
        return;
    kill(process_, SIGKILL);
    waitpid(process_, nullptr, 0);
    ended_ = true;
}

} // namespace sectio::desk
