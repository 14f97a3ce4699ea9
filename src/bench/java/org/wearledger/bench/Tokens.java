package org.wearledger.bench;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import java.io.File;
import java.io.IOException;

/** The least that reading JSON can cost: every token of a file, once, on one core, and nothing done with it. */
final class Tokens {
    private Tokens() {
    }

    public static void main(String[] arguments) throws IOException {
        long tokens = 0;
        try (JsonParser parser = new JsonFactory().createParser(new File(arguments[0]))) {
            while (parser.nextToken() != null) {
                tokens++;
            }
        }
        System.out.println(tokens);
    }
}
