// The plain case (plain.yaml) as an event simulation written for it alone: a measure of what the machine can do.
// Build: g++ -std=c++17 -O3 plain.cpp -o plain    Use: plain CAMPAIGNS SEED    Prints one JSON object; of seconds,
// `user` are of the processor and `wall` of the clock.
//
// The clock is in whole microseconds. The queue is a binary heap; in it stand the end of the step under way and, during
// a scan, whatever is going to happen to the tip before that scan ends. Breakage and fouling are counted in images, so
// they come nearer only while the tip scans. Nothing is allocated from one campaign to the next.
#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <queue>
#include <random>
#include <vector>

#include <sys/resource.h>

namespace {

using Time = std::int64_t;
constexpr Time SECOND = 1'000'000;
constexpr double NEVER = INFINITY;

// The plain case.
constexpr int REGIONS = 60;
constexpr int PASSES = 3;
constexpr int IMAGES = REGIONS * PASSES;
constexpr Time SCAN = 256 * SECOND;
constexpr Time REVIEW = 20 * SECOND;
constexpr Time CHECK = 120 * SECOND;
constexpr double BREAKAGE_SHAPE = 1.5, BREAKAGE_SCALE = 25;              // images
constexpr double FOULING_MEAN = 15, FOULING_CLEARS = 4;                  // images
constexpr double FOULED_QUALITY = 0.4, ACCEPT = 0.8;
constexpr double REVIEW_SENSITIVITY = 0.9, CHECK_SENSITIVITY = 0.95, FALSE_ALARM = 0.02;
constexpr double RELOCATE_SUCCESS = 0.9;
constexpr int CHECK_EVERY = 10, ATTEMPTS = 4;

class Chance {
 public:
  explicit Chance(std::uint64_t seed) : bits_(seed) {}

  double uniform() { return static_cast<double>(bits_() >> 11) * 0x1p-53; }
  bool happens(double probability) { return uniform() < probability; }
  double exponential(double mean) { return -mean * std::log1p(-uniform()); }
  double weibull(double shape, double scale) { return scale * std::pow(exponential(1), 1 / shape); }
  double normal() { return normal_(bits_); }

 private:
  std::mt19937_64 bits_;
  std::normal_distribution<double> normal_;
};

// Lognormal by its median and its 90th percentile, in minutes.
class Duration {
 public:
  Duration(double usual, double p90) : mu_(std::log(usual * 60)), sigma_(std::log(p90 / usual) / 1.2815515655446004) {}

  Time draw(Chance& chance) const {
    return static_cast<Time>(std::floor(std::exp(mu_ + sigma_ * chance.normal()) * SECOND + 0.5));
  }

 private:
  double mu_, sigma_;
};

const Duration EXCHANGE(3, 5), ALIGN(1.5, 3), RESONANCE(1, 2), APPROACH(1.5, 2.5), RELOCATE(3, 8), SETTLE(2, 4),
    LOCATE(4, 9);

enum class What : std::uint8_t {
  exchanged, aligned, tuned, located, approached, relocated, settled,  // steps of the workflow
  scanned, reviewed, checked,                                          // steps of measuring
  breaks, fouls, clears,                                               // what happens to the tip during a scan
};

struct Event {
  Time time;
  What what;
  bool operator>(const Event& other) const { return time > other.time; }
};

struct Queue : std::priority_queue<Event, std::vector<Event>, std::greater<Event>> {
  Queue() { c.reserve(16); }
};

// One tip. What is left until breakage, fouling or clearing is counted in images.
struct Tip {
  double breaksIn = 0, foulsIn = 0, clearsIn = NEVER;
  bool broken = false;
  bool isDoubted = false;  // an image of it was flagged, or it failed a check
  int scansSinceCheck = 0;

  bool fouled() const { return clearsIn != NEVER; }
  double quality() const { return broken ? 0 : fouled() ? FOULED_QUALITY : 1; }
};

// The takes of one image.
struct Record {
  int takes = 0;
  int kept = -1;  // number of the last take that was not flagged
  double quality = 0;
};

struct Outcome {
  double hours, yield, tips, takes, undetectedBadShare;
};

class Campaign {
 public:
  explicit Campaign(Chance& chance) : chance_(chance) {}

  Outcome run() {
    begin();
    while (!queue_.empty()) {
      const Event event = queue_.top();
      queue_.pop();
      now_ = event.time;
      ++events_;
      handle(event.what);
    }
    return outcome();
  }

  std::uint64_t events() const { return events_; }

 private:
  struct Trial {
    int image, number;
  };

  void begin() {
    now_ = 0;
    records_.fill(Record{});
    visited_.fill(false);
    again_.fill(false);
    repeats_.fill(false);
    againLeft_ = repeatsLeft_ = position_ = tips_ = 0;
    mount();
    due_ = 0;
    region_ = 0;
    isChanging_ = false;
    isFound_ = true;
    visited_[0] = true;
    after(LOCATE, What::located);
  }

  void handle(What what) {
    switch (what) {
      case What::exchanged: mount(); after(ALIGN, What::aligned); break;
      case What::aligned: after(RESONANCE, What::tuned); break;
      case What::tuned: comeToRegion(); break;
      case What::located: after(APPROACH, What::approached); break;
      case What::approached:
        if (isFound_) found();
        else after(RELOCATE, What::relocated);
        break;
      case What::relocated:
        if (chance_.happens(RELOCATE_SUCCESS)) found();
        else after(RELOCATE, What::relocated);
        break;
      case What::settled: decide(); break;
      case What::scanned: scanned(); break;
      case What::reviewed: reviewed(); break;
      case What::checked: checked(); break;
      case What::breaks: feel(); tip_.broken = true; break;
      case What::fouls:
        feel();
        tip_.clearsIn = chance_.exponential(FOULING_CLEARS);
        expect(tip_.clearsIn, What::clears);
        break;
      case What::clears:
        feel();
        tip_.clearsIn = NEVER;
        tip_.foulsIn = chance_.exponential(FOULING_MEAN);
        expect(tip_.foulsIn, What::fouls);
        break;
    }
  }

  void after(const Duration& duration, What what) { queue_.push({now_ + duration.draw(chance_), what}); }

  void mount() {
    tip_ = Tip{};
    tip_.breaksIn = chance_.weibull(BREAKAGE_SHAPE, BREAKAGE_SCALE);
    tip_.foulsIn = chance_.exponential(FOULING_MEAN);
    unconfirmed_.clear();
    ++tips_;
  }

  // What comes next: retakes in the region in place, then the plan, then the repeat list, each in plan order.
  int next() const {
    if (againLeft_ > 0) return static_cast<int>(std::find(again_.begin(), again_.end(), true) - again_.begin());
    if (position_ < IMAGES) return position_;
    if (repeatsLeft_ > 0) return static_cast<int>(std::find(repeats_.begin(), repeats_.end(), true) - repeats_.begin());
    return -1;
  }

  void decide() {
    due_ = next();
    if (due_ < 0) return;
    if (tip_.isDoubted) {
      isChanging_ = true;
      isFound_ = false;
      after(EXCHANGE, What::exchanged);
    } else if (region_ != due_ / PASSES) {
      isChanging_ = false;
      isFound_ = false;
      comeToRegion();
    } else {
      scan();
    }
  }

  void comeToRegion() {
    region_ = due_ / PASSES;
    if (visited_[region_]) {
      after(APPROACH, What::approached);
    } else {
      visited_[region_] = true;
      isFound_ = true;
      after(LOCATE, What::located);
    }
  }

  void found() {
    isFound_ = true;
    if (isChanging_) after(SETTLE, What::settled);
    else decide();
  }

  void scan() {
    scanStart_ = felt_ = now_;
    quality_ = 0;
    queue_.push({now_ + SCAN, What::scanned});
    if (!tip_.broken) expect(tip_.breaksIn, What::breaks);
    if (tip_.fouled()) expect(tip_.clearsIn, What::clears);
    else expect(tip_.foulsIn, What::fouls);
  }

  // Something will happen after so many images, if the scan under way lasts so long.
  void expect(double images, What what) {
    const Time time = now_ + static_cast<Time>(images * SCAN + 0.5);
    if (time < scanStart_ + SCAN) queue_.push({time, what});
  }

  // Carries the tip and the image from the last change to now.
  void feel() {
    const double images = static_cast<double>(now_ - felt_) / SCAN;
    felt_ = now_;
    quality_ += images * tip_.quality();
    tip_.breaksIn -= images;
    if (tip_.fouled()) tip_.clearsIn = std::max(0.0, tip_.clearsIn - images);
    else tip_.foulsIn = std::max(0.0, tip_.foulsIn - images);
  }

  void scanned() {
    feel();
    ++tip_.scansSinceCheck;
    ++records_[due_].takes;
    if (again_[due_]) {
      again_[due_] = false;
      --againLeft_;
    } else if (due_ == position_) {
      ++position_;
    } else {
      repeats_[due_] = false;
      --repeatsLeft_;
    }
    queue_.push({now_ + REVIEW, What::reviewed});
  }

  void reviewed() {
    Record& record = records_[due_];
    if (chance_.happens(isGood(quality_) ? FALSE_ALARM : REVIEW_SENSITIVITY)) {
      tip_.isDoubted = true;
      retake(due_);
      decide();
      return;
    }
    record.kept = record.takes;
    record.quality = quality_;
    unconfirmed_.push_back({due_, record.takes});
    if (tip_.scansSinceCheck >= CHECK_EVERY) queue_.push({now_ + CHECK, What::checked});
    else decide();
  }

  // The images of the tip since its last passed check are suspect if it fails.
  void checked() {
    tip_.scansSinceCheck = 0;
    if (chance_.happens(isGood(tip_.quality()) ? FALSE_ALARM : CHECK_SENSITIVITY)) {
      tip_.isDoubted = true;
      for (const Trial& trial : unconfirmed_)
        if (records_[trial.image].kept == trial.number) retake(trial.image);
    } else {
      unconfirmed_.clear();
    }
    decide();
  }

  void retake(int image) {
    if (records_[image].takes >= ATTEMPTS || again_[image] || repeats_[image]) return;
    if (image / PASSES == region_) {
      again_[image] = true;
      ++againLeft_;
    } else {
      repeats_[image] = true;
      ++repeatsLeft_;
    }
  }

  static bool isGood(double quality) { return quality >= ACCEPT - 1e-12; }

  Outcome outcome() const {
    double gained = 0;
    int takes = 0, undetectedBad = 0;
    for (const Record& record : records_) {
      takes += record.takes;
      if (record.kept < 0) continue;
      if (isGood(record.quality)) gained += record.quality;
      else ++undetectedBad;
    }
    return {static_cast<double>(now_) / (3600.0 * SECOND), gained / IMAGES, static_cast<double>(tips_),
            static_cast<double>(takes), static_cast<double>(undetectedBad) / IMAGES};
  }

  Chance& chance_;
  Queue queue_;
  Time now_ = 0;
  std::uint64_t events_ = 0;

  std::array<Record, IMAGES> records_{};
  std::array<bool, REGIONS> visited_{};
  std::array<bool, IMAGES> again_{}, repeats_{};
  int againLeft_ = 0, repeatsLeft_ = 0, position_ = 0, due_ = 0, region_ = 0;
  bool isChanging_ = false, isFound_ = false;

  Tip tip_;
  int tips_ = 0;
  std::vector<Trial> unconfirmed_;  // unflagged takes of the tip since its last passed check
  Time scanStart_ = 0, felt_ = 0;   // when the scan began, and up to when the tip has been carried
  double quality_ = 0;
};

// Mean and standard error of one measure.
class Tally {
 public:
  void add(double value) {
    ++count_;
    const double step = value - mean_;
    mean_ += step / count_;
    squares_ += step * (value - mean_);
  }

  void print(const char* name, const char* end) const {
    const double error = count_ > 1 ? std::sqrt(squares_ / (count_ - 1.0) / count_) : 0;
    std::printf("\"%s\":{\"mean\":%.17g,\"standardError\":%.17g}%s", name, mean_, error, end);
  }

 private:
  double count_ = 0, mean_ = 0, squares_ = 0;
};

double userSeconds() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_utime.tv_sec) + static_cast<double>(usage.ru_utime.tv_usec) / SECOND;
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 3) {
    std::fprintf(stderr, "usage: plain CAMPAIGNS SEED\n");
    return 2;
  }
  const long campaigns = std::atol(arguments[1]);
  Chance chance(std::strtoull(arguments[2], nullptr, 10));
  Campaign campaign(chance);
  Tally hours, yield, tips, takes, undetectedBadShare;
  const double user = userSeconds();
  const auto start = std::chrono::steady_clock::now();
  for (long i = 0; i < campaigns; ++i) {
    const Outcome outcome = campaign.run();
    hours.add(outcome.hours);
    yield.add(outcome.yield);
    tips.add(outcome.tips);
    takes.add(outcome.takes);
    undetectedBadShare.add(outcome.undetectedBadShare);
  }
  const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - start;
  std::printf("{\"campaigns\":%ld,\"events\":%llu,\"seconds\":{\"user\":%.6f,\"wall\":%.6f},\"means\":{", campaigns,
              static_cast<unsigned long long>(campaign.events()), userSeconds() - user, wall.count());
  hours.print("totalTime", ",");
  yield.print("yield", ",");
  tips.print("tips", ",");
  takes.print("takes", ",");
  undetectedBadShare.print("undetectedBadShare", "}}\n");
}
