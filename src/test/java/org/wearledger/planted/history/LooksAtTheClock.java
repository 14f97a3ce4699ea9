package org.wearledger.planted.history;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.function.Supplier;

final class LooksAtTheClock {
    Instant instant() {
        return Instant.now();
    }

    LocalDate localDate() {
        return LocalDate.now();
    }

    long millis() {
        return System.currentTimeMillis();
    }

    Clock clock() {
        return Clock.systemUTC();
    }

    Supplier<Instant> reference() {
        return Instant::now;
    }

    Instant allowed(Clock given) {
        return Instant.now(given);
    }
}
