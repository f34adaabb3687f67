// RF64's table of sizes of 64 bits (EBU Tech 3306), and the number of chunks, at their ends.

#include "support/bytes.hpp"
#include "support/errors.hpp"

#include <sectio/base/limits.hpp>
#include <sectio/measure/wave_chunks.hpp>

#include <sstream>

using namespace sectio;
using namespace sectio::measure;
using support::little_endian;
using support::riff_chunk;

namespace {

const std::string mono_format =
    riff_chunk("fmt ", little_endian(1, 2) + little_endian(1, 2) + little_endian(44100, 4)
                           + little_endian(132300, 4) + little_endian(3, 2) + little_endian(24, 2));

/// A file whose table has `written` rows and says `claimed`; the last is of the chunk `long`, which
/// says that its size stands there.
std::string wide(std::size_t written, std::size_t claimed) {
    std::string table;
    for (std::size_t i = 0; i < written; ++i)
        table += (i + 1 == written ? "long" : "none") + little_endian(6, 8);
    const std::string body = mono_format + "long" + little_endian(0xFFFFFFFF, 4) + "sixers" + "data"
                             + little_endian(0xFFFFFFFF, 4) + "abcdef";
    const std::string head = little_endian(0, 8); // its place for the form's size
    const std::size_t form = 4 + 8 + 28 + table.size() + body.size();
    return "RF64" + little_endian(0xFFFFFFFF, 4) + "WAVE"
           + riff_chunk("ds64", little_endian(form, 8) + little_endian(6, 8) + head
                                    + little_endian(claimed, 4) + table)
           + body;
}

std::string chunks_of(const std::string& file) {
    std::istringstream input(file);
    std::string ids;
    for (const WaveChunk& c : read_wave_chunks(input, "test.wav").chunks)
        ids += c.id + " " + std::to_string(c.size) + " ";
    return ids;
}

std::string trouble_reading(const std::string& file) {
    return support::name_of(support::error_of([&] { chunks_of(file); }));
}

std::string with_chunks(std::size_t count) {
    std::string body = mono_format + riff_chunk("data", "abcdef");
    for (std::size_t i = 2; i < count; ++i)
        body += riff_chunk("none", "");
    return "RIFF" + little_endian(4 + body.size(), 4) + "WAVE" + body;
}

} // namespace

TEST_CASE("A table of sizes may fill its chunk and no more") {
    CHECK(chunks_of(wide(2, 2)).find("long 6 data 6") != std::string::npos);
    CHECK(trouble_reading(wide(2, 3)) == "wave_damaged");
    CHECK(trouble_reading(wide(2, 0xFFFFFFFF)) == "wave_damaged");
    CHECK(trouble_reading(wide(2, 1)) == "wave_damaged"); // the size of `long` is in no row
    CHECK(trouble_reading(wide(limits::wave_chunks, limits::wave_chunks)) == "no error");
    CHECK(trouble_reading(wide(limits::wave_chunks + 1, limits::wave_chunks + 1))
          == "wave_damaged");
}

TEST_CASE("Chunks end at their limit") {
    CHECK(trouble_reading(with_chunks(limits::wave_chunks)) == "no error");
    CHECK(trouble_reading(with_chunks(limits::wave_chunks + 1)) == "wave_damaged");
}
