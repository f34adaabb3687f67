#pragma once
/// @file
/// Short spellings for tests, and intervals shown as expressions in Catch2's reports.

#include <sectio/interval/expression.hpp>

#include <catch2/catch.hpp>

#include <string>

namespace support {

inline sectio::Interval interval(std::string_view text) {
    return sectio::parse_interval(text);
}

inline sectio::Pitch pitch(std::string_view text) {
    return sectio::parse_pitch(text);
}

} // namespace support

template <>
struct Catch::StringMaker<sectio::Interval> {
    static std::string convert(const sectio::Interval& value) {
        return sectio::to_expression(value);
    }
};

template <>
struct Catch::StringMaker<sectio::Integer> {
    static std::string convert(const sectio::Integer& value) { return value.str(); }
};

template <>
struct Catch::StringMaker<sectio::Pitch> {
    static std::string convert(const sectio::Pitch& value) { return value.hertz(6) + " Hz"; }
};
