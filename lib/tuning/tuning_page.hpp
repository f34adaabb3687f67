#pragma once
/// @file
/// Tunings as pages: what was written into messages, and what was read from them.

#include <sectio/page/page.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/tuning/retuning.hpp>
#include <sectio/tuning/stored_tuning.hpp>
#include <sectio/tuning/tuning_file.hpp>

namespace sectio::tuning {

/// `messages[]{kind, bytes}`, `keys[]{key, hz, cents, deviation_cents}` and the worst rounding
/// error. Cents count from the tonic, deviations from the key in 12 equal steps at A4 = 440 Hz,
/// which the messages count from.
page::Page tuning_page(const TunedScale& scale, const Retuning& retuning);

/// The same of messages that were read; the keys and the scale are those of `tuning`, one of all
/// `tunings` of the file.
page::Page stored_tuning_page(const TuningFile& file, const std::vector<StoredTuning>& tunings,
                              const StoredTuning& tuning, const TunedScale& scale);

} // namespace sectio::tuning
