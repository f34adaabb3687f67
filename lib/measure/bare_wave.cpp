#include <sectio/measure/bare_wave.hpp>
#include <sectio/measure/wave_chunks.hpp>

#include <algorithm>
#include <cstdio>

namespace sectio::measure {

std::unique_ptr<BareWave> BareWave::of(const std::string& path, const std::string& name) {
    auto bare = std::make_unique<BareWave>();
    bare->file_.open(path, std::ios::binary);
    WaveChunks wave;
    try {
        wave = read_wave_chunks(bare->file_, name);
    } catch (const Error&) { // what libsndfile says of it counts
        return nullptr;
    }
    bare->head_ = bare_head(bare->file_, wave, name);
    bare->begin_ = wave.find("data")->begin();
    bare->size_ = wave.find("data")->size;
    return bare;
}

SNDFILE* BareWave::open(SF_INFO& info) {
    static SF_VIRTUAL_IO calls{[](void* self) { return static_cast<BareWave*>(self)->length(); },
                               [](sf_count_t offset, int from, void* self) {
                                   return static_cast<BareWave*>(self)->seek(offset, from);
                               },
                               [](void* to, sf_count_t count, void* self) {
                                   return static_cast<BareWave*>(self)->read(static_cast<char*>(to),
                                                                             count);
                               },
                               [](const void*, sf_count_t, void*) { return sf_count_t{0}; },
                               [](void* self) { return static_cast<BareWave*>(self)->at_; }};
    return sndfile().open_virtual(&calls, SFM_READ, &info, this);
}

sf_count_t BareWave::length() const {
    return static_cast<sf_count_t>(head_.size() + size_);
}

sf_count_t BareWave::seek(sf_count_t offset, int from) {
    const sf_count_t base = from == SEEK_CUR ? at_ : from == SEEK_END ? length() : 0;
    return at_ = std::clamp<sf_count_t>(base + offset, 0, length());
}

sf_count_t BareWave::read(char* to, sf_count_t count) {
    const auto head = static_cast<sf_count_t>(head_.size());
    const sf_count_t of_head = std::clamp<sf_count_t>(head - at_, 0, count);
    std::copy_n(head_.data() + std::min(at_, head), of_head, to);
    at_ += of_head;
    file_.clear();
    file_.seekg(static_cast<std::streamoff>(begin_) + std::max<sf_count_t>(0, at_ - head));
    file_.read(to + of_head, std::min(count - of_head, length() - at_));
    at_ += file_.gcount();
    return of_head + file_.gcount();
}

} // namespace sectio::measure
