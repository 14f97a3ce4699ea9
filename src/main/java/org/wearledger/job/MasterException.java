package org.wearledger.job;

/** Spark cannot run where it was asked to; the message is for the user. */
public final class MasterException extends RuntimeException {
    private static final long serialVersionUID = 1;

    /** @param why Spark's words, of which the first line is kept */
    MasterException(String master, String why, Throwable cause) {
        super("Spark cannot run on " + master + " (" + (why == null ? "it does not say why" : why.lines().findFirst().orElse("").strip())
            + "): check --master, and that the cluster is up", cause);
    }
}
