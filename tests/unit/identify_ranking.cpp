// Log weights of any size become probabilities that add up to one.

#include <sectio/identify/candidates.hpp>

#include <catch2/catch.hpp>

#include <cmath>

using namespace sectio;

namespace {

CandidateRanking ranking(const std::vector<double>& log_weights, double none) {
    std::vector<Weighed> weighed;
    for (std::size_t i = 0; i < log_weights.size(); ++i) {
        Weighed w;
        w.start_degree = i; // to know it again
        w.log_weight = log_weights[i];
        weighed.push_back(w);
    }
    return ranked(std::move(weighed), none);
}

double sum_of(const CandidateRanking& r) {
    double sum = r.none_probability + r.others_probability;
    for (const Candidate& c : r.candidates)
        sum += c.probability;
    return sum;
}

} // namespace

TEST_CASE("Only the differences of log weights count, however large all of them are") {
    for (const double shift : {0.0, 5000.0, -5000.0}) {
        CAPTURE(shift);
        const CandidateRanking r =
            ranking({shift, shift + std::log(3), shift}, shift + std::log(5));
        REQUIRE(r.candidates.size() == 3);
        CHECK(r.candidates[0].start_degree == 1);
        CHECK(r.candidates[1].start_degree == 0); // equal ones keep their order
        CHECK(r.candidates[2].start_degree == 2);
        CHECK(r.candidates[0].probability == Approx(0.3));
        CHECK(r.candidates[1].probability == Approx(0.1));
        CHECK(r.none_probability == Approx(0.5));
        CHECK(r.others_probability == Approx(0).margin(1e-12));
    }
}

TEST_CASE("Of more than six pitches none is the likelier to be meant, the more there are") {
    CHECK(none_prior_of(2) == 0.5);
    CHECK(none_prior_of(6) == 0.5);
    CHECK(none_prior_of(9) == Approx(0.6)); // odds of 1.5
    CHECK(none_prior_of(12) == Approx(2.0 / 3));
}

TEST_CASE("Far weights are nothing, and nothing at all is none of the catalogue") {
    const CandidateRanking sure = ranking({3000, -3000}, -100);
    CHECK(sure.candidates.front().probability == Approx(1));
    CHECK(sure.none_probability == 0);
    const CandidateRanking none = ranking({-3000}, 100);
    CHECK(none.none_probability == Approx(1));
    CHECK(ranking({}, -800).none_probability == 1);
}

TEST_CASE("What has less than a millionth of the best is counted, and not listed") {
    const CandidateRanking r = ranking({0, std::log(2e-6), std::log(0.5e-6)}, -1000);
    REQUIRE(r.candidates.size() == 2);
    CHECK(r.candidates[1].probability == Approx(2e-6));
    CHECK(r.others_probability == Approx(0.5e-6));
    CHECK(sum_of(r) == Approx(1));
}
