package org.wearledger.planted.intake;

/** Its name does not say what it is for. */
public final class FileManager {
}
