package org.wearledger.intake;

import java.io.EOFException;
import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;
import java.util.zip.ZipException;

/** A failure to read in words that do not need a programmer. */
final class IoWords {
    private IoWords() {
    }

    static String of(IOException e) {
        if (e instanceof NoSuchFileException) {
            return "it is not there; a link may lead nowhere";
        }
        if (e instanceof AccessDeniedException) {
            return "no permission";
        }
        if (e instanceof EOFException) {
            return "the compressed data end too early";
        }
        if (e instanceof ZipException) {
            return "the compressed data are damaged: " + e.getMessage();
        }
        return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    }
}
