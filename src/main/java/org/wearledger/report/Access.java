package org.wearledger.report;

/** Who may read an output, where the file system knows owners (POSIX). */
public enum Access {
    /** Its owner alone (files 0600, folders 0700): outputs are data about people. */
    OWNER,
    /** As the user's umask says. */
    SHARED
}
