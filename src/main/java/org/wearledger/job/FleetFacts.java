package org.wearledger.job;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.HashMap;
import org.wearledger.assess.DriveAssessor;
import org.wearledger.assess.Ratings;
import org.wearledger.assess.UserChanges;
import org.wearledger.history.Placements;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;

/**
 * What is known of a drive from elsewhere than its own reports: of the whole fleet, to be handed to every task.
 *
 * @param inServiceOn of machines, by folded id, as the inventory tells it
 * @param userSince of machines, by folded id, where the inventory tells it
 */
record FleetFacts(Placements placements, Ratings ratings, HashMap<String, LocalDate> inServiceOn, HashMap<String, LocalDate> userSince) implements Serializable {
    static FleetFacts of(Placements placements, SideTableSet tables) {
        FleetFacts facts = new FleetFacts(placements, Ratings.of(tables.ratings().values()), new HashMap<>(), new HashMap<>());
        for (InventoryEntry entry : tables.inventory().values()) {
            facts.inServiceOn.put(DriveId.fold(entry.machineId()), entry.inServiceOn());
            if (entry.userSince() != null) {
                facts.userSince.put(DriveId.fold(entry.machineId()), entry.userSince());
            }
        }
        return facts;
    }

    /** The history with what the inventory says of its machine's user. */
    DriveHistory completed(DriveHistory history) {
        return userSince.isEmpty() ? history : UserChanges.told(history, userSince.get(machine(history)));
    }

    boolean isActive(DriveHistory history) {
        return placements.isActive(history.id(), machine(history));
    }

    private static String machine(DriveHistory history) {
        return DriveId.fold(history.latest().reading().machine().id());
    }

    /** When the drive's first machine went into service: as its first report says, else as the inventory does. */
    private LocalDate startOfService(DriveHistory history) {
        Machine first = history.first().reading().machine();
        return first.inServiceOn() != null ? first.inServiceOn() : inServiceOn.get(DriveId.fold(first.id()));
    }

    DriveAssessor assessor(DriveHistory history) {
        return new DriveAssessor(history, ratings, placements.firstDriveOf(history.id()), startOfService(history));
    }
}
