package org.wearledger.model;

import java.io.Serializable;
import java.time.Instant;

/** One normalised report: one drive in one machine at one moment. {@code source} is not part of what was measured. */
public record Reading(SourcePlace source, Instant collectedAt, Machine machine, Drive drive, Health health)
    implements Serializable {
}
