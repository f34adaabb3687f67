#include <sectio/base/error.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/temporary_file.hpp>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <climits>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <random>
#include <utility>

namespace sectio {

namespace {

/// The temporary files of this process where a signal handler can read them: it may neither wait
/// nor ask for memory. Files beyond the last slot are removed by their destructors alone.
struct Slot {
    std::atomic<bool> taken, named;
    char name[PATH_MAX];
};
std::array<Slot, 256> slots;
std::atomic<bool> ending;

constexpr std::size_t no_slot = slots.size();

std::size_t take_slot(const std::string& name) {
    for (std::size_t i = 0; name.size() < PATH_MAX && i < slots.size(); ++i)
        if (!slots[i].taken.exchange(true)) {
            std::memcpy(slots[i].name, name.c_str(), name.size() + 1);
            slots[i].named = true;
            return i;
        }
    return no_slot;
}

void give_back(std::size_t slot) {
    if (slot == no_slot)
        return;
    slots[slot].named = false;
    slots[slot].taken = false;
}

extern "C" void remove_temporaries_and_end(int signal) {
    const int kept = errno;
    ending = true;
    for (const Slot& slot : slots)
        if (slot.named)
            unlink(slot.name);
    struct sigaction usual {};
    usual.sa_handler = SIG_DFL;
    sigaction(signal, &usual, nullptr);
    errno = kept;
    raise(signal); // delivered when this handler returns
}

constexpr int ending_signals[]{SIGINT,  SIGTERM, SIGHUP,  SIGQUIT, SIGPIPE,
                               SIGALRM, SIGUSR1, SIGUSR2, SIGXCPU, SIGXFSZ};

/// Keeps signals from this thread while a file is made and not known yet.
class WithoutSignals {
  public:
    WithoutSignals() {
        sigset_t all;
        sigfillset(&all);
        pthread_sigmask(SIG_BLOCK, &all, &before_);
    }
    ~WithoutSignals() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
    WithoutSignals(const WithoutSignals&) = delete;
    WithoutSignals& operator=(const WithoutSignals&) = delete;

  private:
    sigset_t before_{};
};

/// A new file beside `target`, with the permissions that any new file gets, and its name: that of
/// `target` and more letters after it, where need be in place of its last ones.
int create_beside(const std::filesystem::path& target, std::string& name) {
    constexpr std::size_t more = std::string_view(".01234567").size();
    const std::string known = target.filename().string().substr(0, NAME_MAX - more);
    std::random_device random;
    int descriptor = -1;
    do {
        name = (target.parent_path() / (known + fmt::format(".{:08x}", random()))).string();
        descriptor = open(name.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    } while (descriptor < 0 && errno == EEXIST);
    return descriptor;
}

bool allows(const std::filesystem::path& path, int what) {
    return faccessat(AT_FDCWD, path.c_str(), what, AT_EACCESS) == 0;
}

/// With what the system said last. A file that may be written in a folder that takes no other one
/// cannot be replaced whole, and is left alone.
Error refusal(const std::filesystem::path& target) {
    const int reason = errno;
    const bool folder_refuses = allows(target, W_OK);
    return error(folder_refuses ? message::folder_takes_no_file : message::cannot_write, "",
                 Place{target.string()}, std::strerror(reason));
}

} // namespace

void check_writable(const std::filesystem::path& target) {
    std::error_code ignored;
    if (std::filesystem::exists(target, ignored)
        && !std::filesystem::is_regular_file(target, ignored))
        return; // a device is written to as it is, whatever its folder allows
    const std::filesystem::path folder = target.parent_path();
    if ((allows(target, F_OK) && !allows(target, W_OK))
        || !allows(folder.empty() ? "." : folder, W_OK | X_OK))
        throw refusal(target);
}

TemporaryFile::TemporaryFile(std::filesystem::path target) : target_(std::move(target)) {
    check_writable(target_);
    const WithoutSignals quiet;
    descriptor_ = create_beside(target_, name_);
    if (descriptor_ < 0)
        throw refusal(target_);
    slot_ = take_slot(name_);
    if (ending) // in another thread, which may have missed this file
        unlink(name_.c_str());
}

TemporaryFile::~TemporaryFile() {
    if (descriptor_ >= 0)
        close(descriptor_);
    if (!name_.empty())
        unlink(name_.c_str());
    give_back(slot_);
}

bool TemporaryFile::write(std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor_, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR)
            continue;
        if (written < 0)
            return false;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

bool TemporaryFile::put_in_place() {
    struct stat old {};
    const bool keeps_permissions =
        stat(target_.c_str(), &old) != 0 || fchmod(descriptor_, old.st_mode & 07777) == 0;
    if (!keeps_permissions || fsync(descriptor_) != 0 || close(std::exchange(descriptor_, -1)) != 0
        || std::rename(name_.c_str(), target_.c_str()) != 0)
        return false;
    name_.clear();
    return true;
}

void remove_temporaries_at_signals() {
    for (const int signal : ending_signals) {
        struct sigaction before {
        }, mine{};
        mine.sa_handler = remove_temporaries_and_end;
        sigfillset(&mine.sa_mask);
        if (sigaction(signal, nullptr, &before) == 0 && before.sa_handler == SIG_DFL)
            sigaction(signal, &mine, nullptr);
    }
}

} // namespace sectio
