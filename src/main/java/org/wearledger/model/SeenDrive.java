package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * From when to when a drive was seen, in any machine.
 *
 * @param firstHours power-on hours on the first day, {@code lastHours} on the last; {@code null} when not reported
 */
public record SeenDrive(DriveId drive, LocalDate first, LocalDate last, Long firstHours, Long lastHours) implements Serializable {
}
