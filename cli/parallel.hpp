#pragma once
/// @file
/// The same work for many things at once.

#include <sectio/base/error.hpp>

#include <cstddef>
#include <functional>
#include <map>

namespace sectio::cli {

/// Does `work(i)` for all i below `count` in `threads` threads, 0 for as many as the computer has;
/// an Error of one keeps no other from being done. Shows progress on a terminal.
/// `in_order(i)`, where given, is called for each i from 0 up as soon as all before it are done and
/// told, and never twice at once.
/// @return the errors by number
std::map<std::size_t, Error> in_parallel(std::size_t count, unsigned threads,
                                         const std::function<void(std::size_t)>& work,
                                         const std::function<void(std::size_t)>& in_order = {});

} // namespace sectio::cli
