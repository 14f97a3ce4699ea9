package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * The machine as a report names it. All but {@code id} may be {@code null}: not reported.
 *
 * @param id stays the same from sweep to sweep; joined by {@link DriveId#fold}
 * @param memoryBytes main memory installed
 * @param swapUsedBytes in use at the moment of reading
 * @param inServiceOn day the machine, not the drive, came into service
 * @param userSince day its present user, or its present task, took it over
 * @param user who has it, or whose it is, as the inventory tells
 * @param refreshOn day on which another machine takes its place, as the inventory tells
 * @param supportEndsOn last day of support for its system, as the inventory tells
 */
public record Machine(String id, String assetTag, String site, String costCentre, String model, Long memoryBytes,
                      Long swapUsedBytes, LocalDate inServiceOn, LocalDate userSince, String user, LocalDate refreshOn, LocalDate supportEndsOn) implements Serializable {
    /** As a report tells it. */
    public Machine(String id, String assetTag, String site, String costCentre, String model, Long memoryBytes, Long swapUsedBytes,
                   LocalDate inServiceOn, LocalDate userSince) {
        this(id, assetTag, site, costCentre, model, memoryBytes, swapUsedBytes, inServiceOn, userSince, null, null, null);
    }

    /** The same machine, whose user took it over on that day. */
    public Machine usedSince(LocalDate day) {
        return new Machine(id, assetTag, site, costCentre, model, memoryBytes, swapUsedBytes, inServiceOn, day, user, refreshOn, supportEndsOn);
    }

    /** One that does not tell since when it has its user. */
    public Machine(String id, String assetTag, String site, String costCentre, String model, Long memoryBytes, Long swapUsedBytes,
                   LocalDate inServiceOn) {
        this(id, assetTag, site, costCentre, model, memoryBytes, swapUsedBytes, inServiceOn, null);
    }
}
