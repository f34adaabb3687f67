#include <sectio/base/command_files.hpp>
#include <sectio/base/file_access.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/sound_endings.hpp>
#include <sectio/measure/bare_wave.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/sndfile.hpp>
#include <sectio/measure/sound_file.hpp>

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <mutex>
#include <numeric>
#include <vector>

namespace sectio::measure {

struct SoundFile::Handle {
    std::string name;
    SF_INFO info{};
    std::unique_ptr<BareWave> bare; ///< where libsndfile cannot read all of the file
    SNDFILE* file = nullptr;
    std::vector<float> interleaved;
    std::vector<double> squares; ///< of each channel, summed
    double square_of_sum = 0;    ///< of all channels, summed
    std::optional<int> only;

    ~Handle() {
        if (file)
            sndfile().close(file);
    }
    /// @throws Error no_sound_file, wave_damaged
    void open(const std::string& path) {
        file = sndfile().open(path.c_str(), SFM_READ, &info);
        if (file && info.frames > 0)
            return;
        bare = BareWave::of(path, name);
        if (file) // without a frame
            return;
        info = {};
        file = bare ? bare->open(info) : nullptr;
        if (!file)
            throw error(message::no_sound_file, "", {name});
    }
};

namespace {

constexpr std::size_t read_frames = 4096;

/// Decoders write what they think of a file to standard error; while one of these lives it goes
/// nowhere. What is wrong with a file we say ourselves. Standard error is the whole program's: one
/// of these at a time, else the second would keep what the first left.
class Quiet {
  public:
    Quiet() : alone_(one_at_a_time()), kept_(fcntl(STDERR_FILENO, F_DUPFD_CLOEXEC, 0)) {
        const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
        if (kept_ >= 0 && nowhere >= 0)
            dup2(nowhere, STDERR_FILENO);
        if (nowhere >= 0)
            close(nowhere);
    }
    Quiet(const Quiet&) = delete;
    Quiet& operator=(const Quiet&) = delete;
    ~Quiet() {
        if (kept_ < 0)
            return; // there is no standard error
        dup2(kept_, STDERR_FILENO);
        close(kept_);
    }

  private:
    static std::mutex& one_at_a_time() {
        static std::mutex mutex;
        return mutex;
    }
    std::lock_guard<std::mutex> alone_; // released when standard error stands again
    int kept_;
};

/// A file that cannot be opened at all is another trouble than one that holds no sound.
void check_readable(const std::filesystem::path& file) {
    if (!may_read(file))
        throw error(message::file_not_given, "", {file.string()});
    errno = 0;
    if (std::filesystem::is_directory(file))
        throw error(message::cannot_read, "", {file.string()}, "it is a folder");
    if (!std::ifstream(file))
        throw error(message::cannot_read, "", {file.string()},
                    std::strerror(errno != 0 ? errno : ENOENT));
    std::error_code no_size;
    if (std::filesystem::file_size(file, no_size) == 0 && !no_size)
        throw error(message::sound_empty, "", {file.string()});
}

using KeptFile = std::unique_ptr<std::FILE, int (*)(std::FILE*)>;

KeptFile& kept_input() {
    static KeptFile kept(nullptr, std::fclose);
    return kept;
}

/// Opened again each time, and so read from its beginning.
std::string path_of_kept_input() {
    return "/proc/self/fd/" + std::to_string(fileno(kept_input().get()));
}

void check_header(const SF_INFO& info, const std::string& name) {
    if (info.samplerate < limits::least_sound_rate || info.samplerate > limits::sound_rate)
        throw error(message::sound_rate, "", {name}, info.samplerate);
    if (info.channels < 1 || info.channels > limits::sound_channels)
        throw error(message::sound_channels, "", {name}, info.channels, limits::sound_channels);
    if (info.frames <= 0)
        throw error(message::sound_empty, "", {name});
    if (info.frames / info.samplerate > limits::sound_hours * 3600)
        throw error(message::sound_too_long, "", {name}, limits::sound_hours);
}

} // namespace

void keep_standard_input(std::string_view begin, std::istream& rest) {
    kept_input().reset(std::tmpfile());
    std::size_t size = 0;
    const auto keep = [&](std::string_view bytes) {
        size += bytes.size();
        if (size > limits::piped_sound_bytes)
            throw error(message::file_too_large, "", {"standard input"}, limits::piped_sound_bytes);
        if (!kept_input()
            || std::fwrite(bytes.data(), 1, bytes.size(), kept_input().get()) != bytes.size()
            || std::fflush(kept_input().get()) != 0)
            throw error(message::cannot_write, "", {"temporary file"}, std::strerror(errno));
    };
    keep(begin);
    std::vector<char> block(1 << 16);
    while (rest.read(block.data(), std::ssize(block)) || rest.gcount() > 0)
        keep({block.data(), static_cast<std::size_t>(rest.gcount())});
}

SoundFile::SoundFile(const std::filesystem::path& file) : handle_(std::make_unique<Handle>()) {
    const bool piped = file == standard_input && kept_input();
    if (!piped) {
        check_readable(file);
        reads(file);
    }
    handle_->name = piped ? "standard input" : file.string();
    const std::string path = piped ? path_of_kept_input() : file.string();
    const Quiet quiet;
    handle_->open(path);
    check_header(handle_->info, handle_->name);
    handle_->interleaved.resize(read_frames * static_cast<std::size_t>(channels()));
    handle_->squares.resize(static_cast<std::size_t>(channels()));
}

SoundFile::~SoundFile() = default;
SoundFile::SoundFile(SoundFile&&) noexcept = default;
SoundFile& SoundFile::operator=(SoundFile&&) noexcept = default;

int SoundFile::rate() const {
    return handle_->info.samplerate;
}

int SoundFile::channels() const {
    return handle_->info.channels;
}

std::int64_t SoundFile::promised_frames() const {
    return handle_->info.frames;
}

std::size_t SoundFile::read(std::span<float> mono) {
    const auto channel_count = static_cast<std::size_t>(channels());
    const Quiet quiet;
    std::size_t done = 0;
    while (done < mono.size()) {
        const std::size_t wanted = std::min(read_frames, mono.size() - done);
        const auto got = static_cast<std::size_t>(sndfile().readf_float(
            handle_->file, handle_->interleaved.data(), static_cast<sf_count_t>(wanted)));
        for (std::size_t i = 0; i < got; ++i) {
            const float* frame = handle_->interleaved.data() + i * channel_count;
            float sum = 0;
            for (std::size_t c = 0; c < channel_count; ++c) {
                sum += frame[c];
                handle_->squares[c] += static_cast<double>(frame[c]) * frame[c];
            }
            if (!std::isfinite(sum))
                throw error(message::sound_not_finite, "", {handle_->name});
            handle_->square_of_sum += static_cast<double>(sum) * sum;
            mono[done + i] =
                handle_->only ? frame[*handle_->only] : sum / static_cast<float>(channel_count);
        }
        done += got;
        if (got < wanted)
            break;
    }
    return done;
}

void SoundFile::read_only(int channel) {
    handle_->only = channel;
}

std::optional<int> SoundFile::cancelling() const {
    constexpr double softer = 0.01; // 20 dB
    const std::vector<double>& squares = handle_->squares;
    const double independent = std::accumulate(squares.begin(), squares.end(), 0.0);
    if (handle_->square_of_sum >= softer * independent)
        return std::nullopt;
    return static_cast<int>(std::max_element(squares.begin(), squares.end()) - squares.begin());
}

namespace {

std::vector<std::string> sound_files_in(const std::filesystem::path& folder) {
    std::error_code failed;
    std::vector<std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder, failed))
        if (has_sound_ending(entry.path()) && !entry.is_directory())
            files.push_back(entry.path().string());
    if (failed)
        throw error(message::cannot_read, "", {folder.string()}, failed.message());
    if (files.empty())
        throw error(message::folder_without_sound, "", {folder.string()});
    std::sort(files.begin(), files.end());
    return files;
}

} // namespace

std::vector<std::string> with_files_of_folders(const std::vector<std::string>& paths) {
    std::vector<std::string> files;
    for (const std::string& path : paths) {
        std::error_code ignored;
        if (!may_read(path) || !std::filesystem::is_directory(path, ignored)) {
            files.push_back(path);
            continue;
        }
        const std::vector<std::string> inside = sound_files_in(path);
        files.insert(files.end(), inside.begin(), inside.end());
    }
    return files;
}

} // namespace sectio::measure
