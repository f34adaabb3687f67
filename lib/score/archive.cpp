#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/score/document.hpp>
#include <sectio/score/libzip.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/score/xml.hpp>

#include <fmt/format.h>

#include <memory>

namespace sectio::score {

namespace {

constexpr const char* container_path = "META-INF/container.xml";

/// Frees what libzip made.
struct Release {
    void operator()(zip_t* archive) const { zip().discard(archive); }
    void operator()(zip_file_t* file) const { zip().fclose(file); }
    void operator()(zip_source_t* source) const { zip().source_free(source); }
};
template <typename T>
using Owned = std::unique_ptr<T, Release>;

/// An archive in memory. libzip takes one count of the source with the archive; this class keeps
/// another, so that the bytes can be read back after the archive is closed.
class OpenArchive {
  public:
    OpenArchive(std::string_view bytes, const std::string& name, int flags = ZIP_CHECKCONS)
        : name_(name) {
        zip_error_t why;
        zip().error_init(&why);
        source_.reset(zip().source_buffer_create(bytes.data(), bytes.size(), 0, &why));
        if (!source_)
            throw std::bad_alloc();
        zip().source_keep(source_.get());
        archive_.reset(zip().open_from_source(source_.get(), flags, &why));
        if (!archive_) {
            zip().source_free(source_.get());
            const Error said = damaged(zip().error_strerror(&why));
            zip().error_fini(&why); // which holds that text, since libzip 1.11
            throw said;
        }
        check_size();
    }

    zip_t* get() const { return archive_.get(); }

    Error damaged(std::string_view why) const {
        return error(message::archive_damaged, "", Place{name_}, why);
    }

    /// The entry unpacked. The sizes that the archive states are not believed: bytes are counted as
    /// they come.
    std::string entry(zip_uint64_t index) const {
        const zip_stat_t stat = stat_of(index);
        if ((stat.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && stat.encryption_method != ZIP_EM_NONE)
            throw error(message::archive_encrypted, stat.name, Place{name_});
        const Owned<zip_file_t> file(zip().fopen_index(archive_.get(), index, 0));
        if (!file)
            throw damaged(zip().strerror(archive_.get()));
        std::string bytes;
        for (zip_int64_t got = 1; got > 0;) {
            const std::size_t old = bytes.size();
            bytes.resize(old + (std::size_t{1} << 16));
            got = zip().fread(file.get(), bytes.data() + old, bytes.size() - old);
            bytes.resize(old + static_cast<std::size_t>(std::max<zip_int64_t>(got, 0)));
            if (got < 0)
                throw damaged(zip().file_strerror(file.get()));
            check_growth(bytes.size(), stat.comp_size);
        }
        return bytes;
    }

    /// Adds an entry, of the earliest date that there is, so that equal scores are equal bytes.
    void add(const char* name, std::string_view bytes, zip_int32_t method) {
        constexpr zip_uint16_t first_of_1980 = 1 << 5 | 1;
        Owned<zip_source_t> entry(
            zip().source_buffer(archive_.get(), bytes.data(), bytes.size(), 0));
        if (!entry)
            throw std::bad_alloc();
        const zip_int64_t index = zip().file_add(archive_.get(), name, entry.get(), 0);
        if (index < 0)
            throw damaged(zip().strerror(archive_.get()));
        static_cast<void>(entry.release());
        const auto at = static_cast<zip_uint64_t>(index);
        zip().set_file_compression(archive_.get(), at, method, 0);
        zip().file_set_dostime(archive_.get(), at, 0, first_of_1980, 0);
    }

    /// Closes the archive and answers its bytes.
    std::string closed() {
        if (zip().close(archive_.get()) != 0)
            throw damaged(zip().strerror(archive_.get()));
        static_cast<void>(archive_.release());
        zip_stat_t stat;
        zip().source_stat(source_.get(), &stat);
        std::string bytes(stat.size, '\0');
        zip().source_open(source_.get());
        const zip_int64_t got = zip().source_read(source_.get(), bytes.data(), bytes.size());
        zip().source_close(source_.get());
        if (got < 0 || static_cast<zip_uint64_t>(got) != stat.size)
            throw damaged("its new bytes cannot be read back");
        return bytes;
    }

    zip_stat_t stat_of(zip_uint64_t index) const {
        zip_stat_t stat;
        if (zip().stat_index(archive_.get(), index, 0, &stat) != 0)
            throw damaged(zip().strerror(archive_.get()));
        return stat;
    }

  private:
    void check_growth(std::size_t unpacked, zip_uint64_t packed) const {
        if (unpacked > limits::score_bytes)
            throw error(message::archive_too_large, "", Place{name_},
                        fmt::format("{} MiB", limits::score_bytes >> 20));
        if (unpacked > limits::archive_free_bytes && unpacked / limits::archive_ratio > packed)
            throw error(message::archive_too_large, "", Place{name_},
                        fmt::format("{} times its size", limits::archive_ratio));
    }

    void check_size() const {
        const auto entries = static_cast<std::size_t>(zip().get_num_entries(archive_.get(), 0));
        if (entries > limits::archive_entries)
            throw error(message::archive_too_large, "", Place{name_},
                        fmt::format("{} entries", limits::archive_entries));
        std::size_t sum = 0;
        for (zip_uint64_t i = 0; i < entries; ++i) {
            const zip_uint64_t size = stat_of(i).size;
            if (size > limits::archive_bytes - sum)
                throw error(message::archive_too_large, "", Place{name_},
                            fmt::format("{} MiB", limits::archive_bytes >> 20));
            sum += size;
        }
    }

    std::string name_;
    Owned<zip_source_t> source_;
    Owned<zip_t> archive_;
};

/// Finds the first root file that is MusicXML.
class Container : public XmlHandler {
  public:
    bool start(const XmlStart& start, const XmlCursor&) override {
        const auto path = start.attributes.find("full-path");
        if (start.name == "rootfile" && path && score_.empty()) {
            const auto type = start.attributes.find("media-type");
            if (!type || is_score(*type))
                score_ = *path;
        }
        return false;
    }
    void end(std::size_t, std::string_view, const XmlCursor&) override {}
    const std::string& score() const { return score_; }

  private:
    static bool is_score(std::string_view type) {
        return type == "application/vnd.recordare.musicxml+xml"
               || type == "application/vnd.recordare.musicxml" || type == "text/xml"
               || type == "application/xml";
    }
    std::string score_;
};

} // namespace

Document unpack(std::string bytes, const std::string& source) {
    const OpenArchive archive(bytes, source);
    const zip_int64_t container = zip().name_locate(archive.get(), container_path, 0);
    if (container < 0)
        throw error(message::archive_without_score, "", Place{source});
    Container roots;
    read_xml(archive.entry(static_cast<zip_uint64_t>(container)), source + "#" + container_path,
             roots);
    if (roots.score().empty())
        throw error(message::archive_without_score, "", Place{source});
    const zip_int64_t index = zip().name_locate(archive.get(), roots.score().c_str(), 0);
    if (index < 0)
        throw error(message::archive_score_missing, roots.score(), Place{source});
    Document document{
        source + "#" + roots.score(), archive.entry(static_cast<zip_uint64_t>(index)), {}};
    if (document.bytes.empty())
        throw error(message::score_empty, document.source, {});
    document.archive = Archive{std::move(bytes), static_cast<std::uint64_t>(index), roots.score()};
    return document;
}

std::string pack(std::string_view score) {
    constexpr std::string_view score_name = "score.musicxml";
    const std::string container = fmt::format(R"(<?xml version="1.0" encoding="UTF-8"?>
<container>
  <rootfiles>
    <rootfile full-path="{}" media-type="application/vnd.recordare.musicxml+xml"/>
  </rootfiles>
</container>
)",
                                              score_name);
    OpenArchive open({}, "score", ZIP_TRUNCATE);
    open.add("mimetype", "application/vnd.recordare.musicxml", ZIP_CM_STORE);
    open.add(container_path, container, ZIP_CM_DEFLATE);
    open.add(score_name.data(), score, ZIP_CM_DEFLATE);
    return open.closed();
}

std::string repack(const Archive& archive, std::string_view score, const std::string& source) {
    OpenArchive open(archive.bytes, source);
    const zip_stat_t stat = open.stat_of(archive.index);
    zip_source_t* entry = zip().source_buffer(open.get(), score.data(), score.size(), 0);
    if (entry == nullptr)
        throw std::bad_alloc();
    if (zip().file_replace(open.get(), archive.index, entry, 0) != 0) {
        zip().source_free(entry);
        throw open.damaged(zip().strerror(open.get()));
    }
    zip().set_file_compression(open.get(), archive.index, ZIP_CM_DEFLATE, 0);
    zip().file_set_mtime(open.get(), archive.index, stat.mtime, 0);
    return open.closed();
}

} // namespace sectio::score
