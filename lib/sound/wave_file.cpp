// The file is made in memory by libsndfile, so that it is written whole or not at all.

#include <sectio/sound/messages.hpp>
#include <sectio/sound/tone.hpp>
#include <sectio/sound/wave_file.hpp>

#include <sndfile.h>

#include <algorithm>
#include <memory>

namespace sectio::sound {

namespace {

/// A file in memory, as libsndfile asks for it.
struct MemoryFile {
    std::string bytes;
    std::size_t place = 0;
};

MemoryFile& file_of(void* data) {
    return *static_cast<MemoryFile*>(data);
}

sf_count_t length(void* data) {
    return static_cast<sf_count_t>(file_of(data).bytes.size());
}

sf_count_t seek(sf_count_t offset, int from, void* data) {
    MemoryFile& file = file_of(data);
    const sf_count_t base = from == SEEK_SET   ? 0
                            : from == SEEK_CUR ? static_cast<sf_count_t>(file.place)
                                               : length(data);
    file.place = static_cast<std::size_t>(std::max<sf_count_t>(base + offset, 0));
    return static_cast<sf_count_t>(file.place);
}

sf_count_t read(void*, sf_count_t, void*) {
    return 0; // it is only written
}

sf_count_t write(const void* from, sf_count_t count, void* data) {
    MemoryFile& file = file_of(data);
    const auto size = static_cast<std::size_t>(count);
    if (file.bytes.size() < file.place + size)
        file.bytes.resize(file.place + size);
    std::copy_n(static_cast<const char*>(from), size,
                file.bytes.begin() + static_cast<std::ptrdiff_t>(file.place));
    file.place += size;
    return count;
}

sf_count_t tell(void* data) {
    return static_cast<sf_count_t>(file_of(data).place);
}

} // namespace

std::string wave_bytes(std::span<const float> samples) {
    MemoryFile file;
    SF_VIRTUAL_IO memory{length, seek, read, write, tell};
    SF_INFO info{};
    info.samplerate = sample_rate;
    info.channels = 1;
    info.format = SF_FORMAT_WAV | SF_FORMAT_PCM_24;
    std::unique_ptr<SNDFILE, int (*)(SNDFILE*)> out(
        sf_open_virtual(&memory, SFM_WRITE, &info, &file), sf_close);
    if (!out)
        throw error(message::sound_not_written, "", {}, sf_strerror(nullptr));
    const auto count = static_cast<sf_count_t>(samples.size());
    if (sf_writef_float(out.get(), samples.data(), count) != count)
        throw error(message::sound_not_written, "", {}, sf_strerror(out.get()));
    out.reset(); // completes the header
    return std::move(file.bytes);
}

} // namespace sectio::sound
