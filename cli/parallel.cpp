#include "parallel.hpp"

#include "progress_line.hpp"

#include <sectio/base/messages.hpp>

#include <algorithm>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace sectio::cli {

namespace {

std::optional<Error> attempt(const std::function<void(std::size_t)>& work, std::size_t i) {
    try {
        work(i);
        return std::nullopt;
    } catch (const Error& e) {
        return e;
    } catch (const std::exception& e) {
        return error(message::work_failed, "", {}, e.what());
    }
}

/// Hands the numbers out and takes the results in, under one lock.
class Queue {
  public:
    Queue(std::size_t count, const std::function<void(std::size_t)>& in_order)
        : done_(count, 0), in_order_(in_order) {}

    std::optional<std::size_t> next() {
        const std::lock_guard lock(mutex_);
        return next_ < done_.size() ? std::optional(next_++) : std::nullopt;
    }

    void take(std::size_t i, const std::optional<Error>& failure) {
        const std::lock_guard lock(mutex_);
        if (failure)
            failed_.emplace(i, *failure);
        done_[i] = 1;
        ++finished_;
        for (; told_ < done_.size() && done_[told_]; ++told_)
            if (in_order_)
                in_order_(told_);
        progress_(static_cast<double>(finished_) / static_cast<double>(done_.size()));
    }

    std::map<std::size_t, Error> failed() && { return std::move(failed_); }

  private:
    std::mutex mutex_;
    std::vector<char> done_;
    std::size_t next_ = 0, finished_ = 0, told_ = 0;
    std::map<std::size_t, Error> failed_;
    std::function<void(std::size_t)> in_order_;
    ProgressLine progress_;
};

} // namespace

std::map<std::size_t, Error> in_parallel(std::size_t count, unsigned threads,
                                         const std::function<void(std::size_t)>& work,
                                         const std::function<void(std::size_t)>& in_order) {
    Queue queue(count, in_order);
    const auto worker = [&] {
        while (const auto i = queue.next())
            queue.take(*i, attempt(work, *i));
    };
    const std::size_t wanted =
        threads ? threads : std::max(1U, std::thread::hardware_concurrency());
    std::vector<std::jthread> workers;
    for (std::size_t i = 1; i < std::min(wanted, count); ++i)
        workers.emplace_back(worker);
    worker();
    workers.clear(); // joins them
    return std::move(queue).failed();
}

} // namespace sectio::cli
