package org.wearledger.model;

/** Why the machine is replaced, and not its drive or board alone. The first that holds counts. */
public enum RefreshReason {
    /** By the inventory another machine takes its place before the drive is needed. */
    REFRESH_DATE,
    /** By the inventory the support for its system ends before that. */
    SUPPORT_END,
    /** It is beyond the refresh age on the day of need. */
    AGE,
    /** The board costs more than the stated share of the machine. */
    BOARD_TOO_DEAR
}
