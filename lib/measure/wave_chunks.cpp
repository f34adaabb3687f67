#include <sectio/base/argument.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/wave_chunks.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <map>

namespace sectio::measure {

namespace {

constexpr std::uint64_t form_header = 12; ///< "RIFF", size, "WAVE"
constexpr std::uint32_t in_ds64 = 0xFFFFFFFF;
constexpr std::uint64_t sampler_head = 36; ///< bytes of smpl before its loops
constexpr std::uint64_t key_at = 12;       ///< in it; the fraction follows
constexpr std::size_t copied_at_once = 1 << 16;

std::uint64_t little_endian(const char* bytes, int size) {
    std::uint64_t value = 0;
    for (int i = size - 1; i >= 0; --i)
        value = value << 8 | static_cast<unsigned char>(bytes[i]);
    return value;
}

std::string little_endian_bytes(std::uint64_t value, int size) {
    std::string bytes;
    for (int i = 0; i < size; ++i)
        bytes += static_cast<char>(value >> (8 * i) & 0xFF);
    return bytes;
}

/// Reads from any place of the file, or says that it is damaged.
class Reader {
  public:
    Reader(std::istream& file, const std::string& name) : file_(file), name_(name) {
        file_.clear();
        file_.seekg(0, std::ios::end);
        size_ = static_cast<std::uint64_t>(std::max<std::streamoff>(0, file_.tellg()));
    }
    std::uint64_t size() const { return size_; }

    std::string bytes(std::uint64_t from, std::uint64_t count) {
        std::string result(count, '\0');
        file_.seekg(static_cast<std::streamoff>(from));
        file_.read(result.data(), static_cast<std::streamsize>(count));
        if (static_cast<std::uint64_t>(file_.gcount()) != count)
            fail("it ends too early");
        return result;
    }
    std::uint64_t number(std::uint64_t from, int size) {
        return little_endian(bytes(from, static_cast<std::uint64_t>(size)).data(), size);
    }
    [[noreturn]] void fail(const std::string& what) const {
        throw error(message::wave_damaged, "", {name_}, what);
    }

  private:
    std::istream& file_;
    const std::string& name_;
    std::uint64_t size_ = 0;
};

/// The sizes of the chunk ds64: the form's, the sound's, and a table of others.
struct WideSizes {
    std::uint64_t form = 0;
    std::map<std::string, std::uint64_t> chunks;
};

WideSizes read_wide_sizes(Reader& reader) {
    constexpr std::uint64_t begin = form_header + 8, fixed = 28, row = 12;
    if (reader.size() < begin + fixed || reader.bytes(form_header, 4) != "ds64")
        reader.fail("RF64 without its chunk ds64");
    WideSizes sizes{reader.number(begin, 8), {{"data", reader.number(begin + 8, 8)}}};
    const std::uint64_t rows = reader.number(begin + 24, 4);
    if (rows > limits::wave_chunks || fixed + rows * row > reader.number(form_header + 4, 4))
        reader.fail("the table of its chunk ds64 is longer than the chunk");
    for (std::uint64_t i = 0; i < rows; ++i)
        sizes.chunks[reader.bytes(begin + fixed + i * row, 4)] =
            reader.number(begin + fixed + i * row + 4, 8);
    return sizes;
}

void read_chunks(Reader& reader, const WideSizes& sizes, WaveChunks& wave) {
    std::uint64_t at = form_header;
    while (at + 8 <= wave.end) {
        WaveChunk chunk{reader.bytes(at, 4), at, reader.number(at + 4, 4)};
        const auto wide = sizes.chunks.find(chunk.id);
        if (wave.wide && chunk.size == in_ds64 && wide != sizes.chunks.end())
            chunk.size = wide->second;
        if (chunk.size > wave.end - chunk.begin())
            reader.fail(fmt::format("the chunk at byte {} claims {} bytes, {} are left", at,
                                    chunk.size, wave.end - chunk.begin()));
        if (wave.chunks.size() >= limits::wave_chunks)
            reader.fail(
                fmt::format("more than {} chunks are beyond the limits", limits::wave_chunks));
        at = chunk.end();
        wave.chunks.push_back(std::move(chunk));
    }
}

void check_chunks(Reader& reader, WaveChunks& wave) {
    const WaveChunk* format = wave.find("fmt ");
    if (!format || format->size < 16)
        reader.fail("the chunk fmt is missing");
    if (!wave.find("data"))
        reader.fail("the chunk data is missing");
    wave.rate = static_cast<std::uint32_t>(reader.number(format->begin() + 4, 4));
    for (const WaveChunk& chunk : wave.chunks)
        if (chunk.id == "smpl" && chunk.size < sampler_head)
            reader.fail("its sampler chunk is too short");
}

/// Copies, with some bytes replaced by others of the same number or new ones put between.
class Copier {
  public:
    Copier(Reader& reader, const Sink& sink) : reader_(reader), sink_(sink) {}
    void up_to(std::uint64_t place) {
        while (at_ < place) {
            const std::uint64_t count = std::min<std::uint64_t>(copied_at_once, place - at_);
            sink_(reader_.bytes(at_, count));
            at_ += count;
        }
    }
    void replace(std::uint64_t place, const std::string& bytes) {
        up_to(place);
        sink_(bytes);
        at_ += bytes.size();
    }
    void insert(std::uint64_t place, const std::string& bytes) {
        up_to(place);
        sink_(bytes);
    }

  private:
    Reader& reader_;
    const Sink& sink_;
    std::uint64_t at_ = 0;
};

std::string pitch_bytes(const SamplerPitch& pitch) {
    return little_endian_bytes(pitch.key, 4) + little_endian_bytes(pitch.fraction, 4);
}

/// A sampler chunk without loops, for no sampler in particular.
std::string new_sampler_chunk(const SamplerPitch& pitch, std::uint32_t rate) {
    constexpr std::uint64_t billion = 1'000'000'000;
    const std::uint64_t period_ns = rate == 0 ? 0 : (billion + rate / 2) / rate;
    return "smpl" + little_endian_bytes(sampler_head, 4) + little_endian_bytes(0, 8)
           + little_endian_bytes(period_ns, 4) + pitch_bytes(pitch) + std::string(16, '\0');
}

void append_chunk(Copier& copier, const WaveChunks& wave, const SamplerPitch& pitch,
                  const std::string& name) {
    // A last chunk of odd size may lack its zero; then that belongs to what is put in.
    const std::uint64_t whole = wave.chunks.back().end();
    const std::uint64_t place = std::min(whole, wave.end);
    const std::string chunk =
        std::string(whole > wave.end ? 1 : 0, '\0') + new_sampler_chunk(pitch, wave.rate);
    const std::uint64_t size = wave.end - 8 + chunk.size();
    if (!wave.wide_form && size >= in_ds64)
        throw error(message::wave_full, "", {name});
    if (wave.wide_form)
        copier.replace(form_header + 8, little_endian_bytes(size, 8));
    else
        copier.replace(4, little_endian_bytes(size, 4));
    copier.insert(place, chunk);
}

} // namespace

const WaveChunk* WaveChunks::find(const std::string& id) const {
    const auto found =
        std::find_if(chunks.begin(), chunks.end(), [&](const WaveChunk& c) { return c.id == id; });
    return found == chunks.end() ? nullptr : &*found;
}

WaveChunks read_wave_chunks(std::istream& file, const std::string& name) {
    Reader reader(file, name);
    WaveChunks wave;
    wave.file_size = reader.size();
    if (reader.size() < form_header)
        throw error(message::not_wave, "", {name});
    const std::string form = reader.bytes(0, 4);
    wave.wide = form == "RF64" || form == "BW64";
    if ((form != "RIFF" && !wave.wide) || reader.bytes(8, 4) != "WAVE")
        throw error(message::not_wave, "", {name});
    const WideSizes sizes = wave.wide ? read_wide_sizes(reader) : WideSizes{};
    const std::uint64_t size = reader.number(4, 4);
    wave.wide_form = wave.wide && size == in_ds64;
    const std::uint64_t form_size = wave.wide_form ? sizes.form : size;
    if (form_size < 4 || form_size > reader.size() - 8)
        reader.fail(fmt::format("its header claims {} bytes, the file has {}", form_size,
                                reader.size() - 8));
    wave.end = form_size + 8;
    read_chunks(reader, sizes, wave);
    check_chunks(reader, wave);
    return wave;
}

std::string bare_head(std::istream& file, const WaveChunks& wave, const std::string& name) {
    Reader reader(file, name);
    std::string body;
    for (const WaveChunk& chunk : wave.chunks)
        if (chunk.id == "fmt " || chunk.id == "fact")
            body += reader.bytes(chunk.header, 8 + chunk.size) + std::string(chunk.size % 2, '\0');
    for (const std::string id : {"fmt ", "data"})
        if (const auto count = std::count_if(wave.chunks.begin(), wave.chunks.end(),
                                             [&](const WaveChunk& c) { return c.id == id; });
            count != 1)
            reader.fail(fmt::format("it has {} chunks {} where one belongs", count,
                                    id.substr(0, id.find(' '))));
    const std::uint64_t sound = wave.find("data")->size;
    const std::uint64_t form = 4 + body.size() + 8 + sound + sound % 2;
    if (!wave.wide)
        return "RIFF" + little_endian_bytes(form, 4) + "WAVE" + body + "data"
               + little_endian_bytes(sound, 4);
    return "RF64" + little_endian_bytes(in_ds64, 4) + "WAVEds64" + little_endian_bytes(28, 4)
           + little_endian_bytes(form + 36, 8) + little_endian_bytes(sound, 8)
           + std::string(12, '\0') + body + "data" + little_endian_bytes(in_ds64, 4);
}

std::optional<SamplerPitch> sampler_pitch(std::istream& file, const WaveChunks& wave,
                                          const std::string& name) {
    const WaveChunk* chunk = wave.find("smpl");
    if (!chunk)
        return std::nullopt;
    Reader reader(file, name);
    return SamplerPitch{static_cast<std::uint32_t>(reader.number(chunk->begin() + key_at, 4)),
                        static_cast<std::uint32_t>(reader.number(chunk->begin() + key_at + 4, 4))};
}

void copy_with_pitch(std::istream& file, const WaveChunks& wave, const SamplerPitch& pitch,
                     const std::string& name, const Sink& sink) {
    check_function(sink, "what takes a copy");
    check_argument(!wave.chunks.empty(), "a WAVE file", "one of chunks");
    Reader reader(file, name);
    Copier copier(reader, sink);
    if (!wave.find("smpl"))
        append_chunk(copier, wave, pitch, name);
    for (const WaveChunk& chunk : wave.chunks)
        if (chunk.id == "smpl")
            copier.replace(chunk.begin() + key_at, pitch_bytes(pitch));
    copier.up_to(wave.file_size);
}

} // namespace sectio::measure
