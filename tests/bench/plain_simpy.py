"""The plain case (plain.yaml) as a process model in SimPy: what a practitioner would write.

Use: /usr/bin/python3 plain_simpy.py CAMPAIGNS SEED [--count-events]    Prints one JSON object.

The clock is in seconds. One process is the person at the instrument, who goes through the plan; a scan is waited for
from one thing that happens to the tip to the next. The operator is there all the time and has nothing else to do, so is
no resource that the steps ask for. Of the seconds printed, `user` are of the processor and `wall` of the clock.
"""

import json
import math
import random
import resource
import sys
import time

import simpy

REGIONS = 60
PASSES = 3
SCAN = 256
REVIEW = 20
CHECK = 120
BREAKAGE_SHAPE, BREAKAGE_SCALE = 1.5, 25  # images
FOULING_MEAN, FOULING_CLEARS = 15, 4  # images
FOULED_QUALITY = 0.4
ACCEPT = 0.8
REVIEW_SENSITIVITY, CHECK_SENSITIVITY, FALSE_ALARM = 0.9, 0.95, 0.02
RELOCATE_SUCCESS = 0.9
CHECK_EVERY = 10
ATTEMPTS = 4
NEVER = math.inf

Z90 = 1.2815515655446004


def lognormal(usual, p90):
    """Parameters of a time in seconds, from its median and 90th percentile in minutes."""
    return math.log(usual * 60), math.log(p90 / usual) / Z90


EXCHANGE = lognormal(3, 5)
ALIGN = lognormal(1.5, 3)
RESONANCE = lognormal(1, 2)
APPROACH = lognormal(1.5, 2.5)
RELOCATE = lognormal(3, 8)
SETTLE = lognormal(2, 4)
LOCATE = lognormal(4, 9)


class Tip:
    """One tip. What is left until breakage, fouling or clearing is counted in images."""

    def __init__(self):
        self.breaks_in = random.weibullvariate(BREAKAGE_SCALE, BREAKAGE_SHAPE)
        self.fouls_in = random.expovariate(1 / FOULING_MEAN)
        self.clears_in = None  # a number while the tip is fouled
        self.is_doubted = False  # an image of it was flagged, or it failed a check
        self.scans_since_check = 0
        self.unconfirmed = []  # its unflagged takes since its last passed check

    @property
    def quality(self):
        if self.breaks_in <= 0:
            return 0
        return 1 if self.clears_in is None else FOULED_QUALITY

    def next_event(self):
        """Images until something happens to it next."""
        fouling = self.fouls_in if self.clears_in is None else self.clears_in
        return min(fouling, self.breaks_in) if self.breaks_in > 0 else fouling

    def scan(self, images):
        """Carries it through so much of an image, not past what happens next."""
        if self.breaks_in > 0:
            self.breaks_in -= images
        if self.clears_in is None:
            self.fouls_in -= images
            if self.fouls_in <= 0:
                self.clears_in = random.expovariate(1 / FOULING_CLEARS)
        else:
            self.clears_in -= images
            if self.clears_in <= 0:
                self.clears_in = None
                self.fouls_in = random.expovariate(1 / FOULING_MEAN)


class Image:
    def __init__(self, number):
        self.number = number
        self.region = number // PASSES
        self.takes = 0
        self.kept = None  # the last take that was not flagged


class Take:
    def __init__(self, image, quality):
        self.image = image
        self.quality = quality
        self.is_good = quality >= ACCEPT - 1e-12


class Campaign:
    def __init__(self, env):
        self.env = env
        self.images = [Image(number) for number in range(REGIONS * PASSES)]
        self.plan = list(reversed(self.images))
        self.again = []  # retakes in the region in place
        self.repeats = []  # retakes for when the plan is through
        self.visited = set()
        self.region = None
        self.tip = None
        self.tips = 0

    def mount(self):
        self.tip = Tip()
        self.tips += 1

    def step(self, distribution):
        yield self.env.timeout(random.lognormvariate(*distribution))

    def run(self):
        self.mount()
        yield from self.come_to(self.images[0].region)
        while True:
            image = self.next()
            if image is None:
                return
            if self.tip.is_doubted:
                yield from self.change_tip(image.region)
            elif image.region != self.region:
                yield from self.come_to(image.region)
            yield from self.take(image)

    def next(self):
        """The image that is due: retakes in the region in place, then the plan, then the repeat list."""
        if self.again:
            return self.again[0]
        if self.plan:
            return self.plan[-1]
        if self.repeats:
            return self.repeats[0]
        return None

    def change_tip(self, region):
        yield from self.step(EXCHANGE)
        self.mount()
        yield from self.step(ALIGN)
        yield from self.step(RESONANCE)
        yield from self.come_to(region)
        yield from self.step(SETTLE)

    def come_to(self, region):
        """Locates a region and approaches on the first visit; approaches and relocates on a later one."""
        self.region = region
        if region not in self.visited:
            self.visited.add(region)
            yield from self.step(LOCATE)
            yield from self.step(APPROACH)
            return
        yield from self.step(APPROACH)
        while True:
            yield from self.step(RELOCATE)
            if random.random() < RELOCATE_SUCCESS:
                return

    def take(self, image):
        quality = yield from self.scan()
        self.tip.scans_since_check += 1
        image.takes += 1
        for due in (self.again, self.repeats):
            if image in due:
                due.remove(image)
                break
        else:
            self.plan.pop()

        take = Take(image, quality)
        yield self.env.timeout(REVIEW)
        if random.random() < (FALSE_ALARM if take.is_good else REVIEW_SENSITIVITY):
            self.tip.is_doubted = True
            self.retake(image)
            return
        image.kept = take
        self.tip.unconfirmed.append(take)
        if self.tip.scans_since_check >= CHECK_EVERY:
            yield from self.check()

    def scan(self):
        """Scans an image, and gives its mean quality."""
        tip = self.tip
        quality = 0
        left = 1
        while True:
            images = min(tip.next_event(), left)
            quality += images * tip.quality
            left -= images
            yield self.env.timeout(images * SCAN)
            tip.scan(images)
            if left <= 0:
                return quality

    def check(self):
        """Checks the tip; if it fails, its images since its last passed check are suspect."""
        tip = self.tip
        yield self.env.timeout(CHECK)
        tip.scans_since_check = 0
        if random.random() < (FALSE_ALARM if tip.quality >= ACCEPT else CHECK_SENSITIVITY):
            tip.is_doubted = True
            for take in tip.unconfirmed:
                if take.image.kept is take:
                    self.retake(take.image)
        else:
            tip.unconfirmed.clear()

    def retake(self, image):
        if image.takes >= ATTEMPTS or image in self.again or image in self.repeats:
            return
        due = self.again if image.region == self.region else self.repeats
        due.append(image)
        due.sort(key=lambda other: other.number)

    def outcome(self):
        kept = [image.kept for image in self.images if image.kept is not None]
        return {
            "totalTime": self.env.now / 3600,
            "yield": sum(take.quality for take in kept if take.is_good) / len(self.images),
            "tips": self.tips,
            "takes": sum(image.takes for image in self.images),
            "undetectedBadShare": sum(not take.is_good for take in kept) / len(self.images),
        }


class CountingEnvironment(simpy.Environment):
    """Counts what goes through the queue. Slower, so not what is timed."""

    events = 0

    def step(self):
        CountingEnvironment.events += 1
        super().step()


def simulate(env):
    campaign = Campaign(env)
    env.process(campaign.run())
    env.run()
    return campaign.outcome()


def user_seconds():
    return resource.getrusage(resource.RUSAGE_SELF).ru_utime


def summarised(values):
    count = len(values)
    mean = math.fsum(values) / count
    variance = math.fsum((value - mean) ** 2 for value in values) / (count - 1)
    return {"mean": mean, "standardError": math.sqrt(variance / count)}


def main():
    campaigns, seed = int(sys.argv[1]), int(sys.argv[2])
    counts_events = "--count-events" in sys.argv[3:]
    environment = CountingEnvironment if counts_events else simpy.Environment
    random.seed(seed)
    user, wall = user_seconds(), time.perf_counter()
    outcomes = [simulate(environment()) for _ in range(campaigns)]
    seconds = {"user": user_seconds() - user, "wall": time.perf_counter() - wall}
    means = {measure: summarised([outcome[measure] for outcome in outcomes]) for measure in outcomes[0]}
    events = {"events": CountingEnvironment.events} if counts_events else {}
    print(json.dumps({"campaigns": campaigns, **events, "seconds": seconds, "means": means}))


if __name__ == "__main__":
    main()
