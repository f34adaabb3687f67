#pragma once
/// @file
/// Sound files, read as one channel, piece by piece. WAV, RF64, FLAC, AIFF, OGG and what else
/// libsndfile knows.

#include <cstdint>
#include <filesystem>
#include <istream>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::measure {

/// What SoundFile and listen() take for standard input, once that is kept.
inline constexpr const char* standard_input = "-";

/// Keeps a recording on standard input in a temporary file without a name, since it is read more
/// than once: `begin`, which was read already, and what is left of `rest`.
/// @throws Error file_too_large, cannot_write
void keep_standard_input(std::string_view begin, std::istream& rest);

/// A sound file that is open for reading. The channels are averaged, unless one is asked for. Not
/// for several threads.
class SoundFile {
  public:
    /// `file` may be standard_input. Precondition: it is kept.
    /// @throws Error cannot_read, no_sound_file, sound_rate, sound_channels, sound_empty,
    ///         sound_too_long
    explicit SoundFile(const std::filesystem::path& file);
    ~SoundFile();
    SoundFile(SoundFile&&) noexcept;
    SoundFile& operator=(SoundFile&&) noexcept;

    /// Frames a second.
    int rate() const;
    int channels() const;
    /// Frames that the header promises; what read() gives may be fewer.
    std::int64_t promised_frames() const;
    /// Fills `mono` with the next frames, full scale being 1; fewer only at the end of the sound.
    /// @return how many @throws Error sound_not_finite
    std::size_t read(std::span<float> mono);
    /// From now on read() gives this channel, counted from 0, instead of the average.
    void read_only(int channel);
    /// The loudest channel, counted from 0, where the channels cancel each other in what was read
    /// so far: their average is 20 dB softer than that of independent channels, or more.
    std::optional<int> cancelling() const;

  private:
    struct Handle;
    std::unique_ptr<Handle> handle_;
};

/// `paths`, each folder replaced by the sound files in it, by their endings and in the order of
/// their names. @throws Error folder_without_sound, cannot_read
std::vector<std::string> with_files_of_folders(const std::vector<std::string>& paths);

} // namespace sectio::measure
