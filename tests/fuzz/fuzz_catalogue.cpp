// Any text as a file of the catalogue: an index whose entries are those of the file, or an error
// with a text. Any bytes as an index and as an entry of one: read, or known to be damaged.

#include <sectio/scale/catalogue_index.hpp>
#include <sectio/scale/entry_bytes.hpp>

#include <cstdint>
#include <cstdlib>

using namespace sectio;

namespace {

void require(bool condition) {
    if (!condition)
        std::abort();
}

/// Every entry of the index is whole, has an id that may name a file, and a scale that rises.
void check_index(std::string_view index, const std::vector<CatalogueFile>& files) {
    const auto opened = open_index(index, checksum(files));
    require(opened.has_value());
    for (const IndexedEntry& indexed : opened->entries) {
        const Entry entry = entry_of(indexed);
        require(entry.id == indexed.id && is_id(entry.id) && entry.kind() == indexed.kind);
        if (const Scale* scale = entry.scale())
            for (std::size_t i = 1; i < scale->degrees.size(); ++i)
                require(scale->degrees[i - 1].interval < scale->degrees[i].interval);
    }
}

void check_file(std::string_view toml) {
    const std::vector<CatalogueFile> files{{"fuzz.toml", std::string(toml)}};
    try {
        const std::string index = make_index(files, "");
        check_index(index, files);
        require(!open_index(index + " ", checksum(files)));
    } catch (const Error& error) {
        require(!error.message().empty() && !error.advice().empty());
    }
}

/// What is read is an entry that is written and read again alike.
void check_entry(std::string_view bytes) {
    const auto written = [](const Entry& entry) {
        ByteWriter writer;
        write_entry(writer, entry);
        return writer.take();
    };
    try {
        ByteReader reader(bytes);
        const std::string once = written(read_entry(reader));
        ByteReader again(once);
        require(written(read_entry(again)) == once && again.at_end());
    } catch (const Damaged&) {
    } catch (const Error& error) { // a division of no steps
        require(!error.message().empty());
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    check_file(text);
    check_entry(text);
    open_index(text, 0);
    return 0;
}
