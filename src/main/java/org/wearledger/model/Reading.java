package org.wearledger.model;

import java.io.Serializable;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;

/** One normalised report: one drive in one machine at one moment. {@code source} is not part of what was measured. */
public record Reading(SourcePlace source, Instant collectedAt, Machine machine, Drive drive, Health health)
    implements Serializable {
    /** The day it was collected on, in UTC. */
    public LocalDate collectedOn() {
        return LocalDate.ofInstant(collectedAt, ZoneOffset.UTC);
    }
}
