package org.wearledger.planted.assess;

import org.wearledger.planted.stats.KnowsDrives;

/** Allowed by itself: assess may know stats. */
public final class Judges {
    public static final Integer LEAST = 1;

    KnowsDrives statistics;
}
