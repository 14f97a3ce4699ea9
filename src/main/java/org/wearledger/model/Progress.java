package org.wearledger.model;

/** Hears how far a long run has come; called from several threads. */
public interface Progress {
    /** Tells nobody. */
    Progress NONE = (stage, done, total) -> { };

    /**
     * Says how far the run is.
     *
     * @param stage in plain words, such as {@code reading reports}
     * @param done parts of the stage done, of {@code total}
     */
    void at(String stage, int done, int total);
}
