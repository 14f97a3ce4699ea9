package org.wearledger.cli;

import java.util.Locale;
import org.wearledger.model.Standing;

/** The standings that a scheduler may ask for; each stands for itself and all that are worse. */
enum FailOn {
    URGENT(Standing.URGENT), PAST_RATING(Standing.PAST_RATING), DUE(Standing.DUE), WATCH(Standing.WATCH);

    private final Standing standing;

    FailOn(Standing standing) {
        this.standing = standing;
    }

    boolean isReachedBy(Standing machine) {
        return machine.compareTo(standing) <= 0;
    }

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
