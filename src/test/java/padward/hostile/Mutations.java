package padward.hostile;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import com.google.gson.JsonPrimitive;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/**
 * Changes to inputs: of bytes, of words of a language, of lines and their fields, and of the tree
 * of a JSON text. All of them by one random generator, so a seed gives the same inputs again.
 */
final class Mutations {
    /** Numbers at the borders of types and of stated limits, and what is none. */
    private static final List<String> NUMBERS =
            List.of(
                    "0",
                    "-0",
                    "1",
                    "-1",
                    "2",
                    "7",
                    "63",
                    "64",
                    "65",
                    "255",
                    "999",
                    "1000",
                    "1001",
                    "4096",
                    "4097",
                    "10001",
                    "100001",
                    "1000000",
                    "1000001",
                    "2147483646",
                    "2147483647",
                    "2147483648",
                    "-2147483648",
                    "4294967296",
                    "9007199254740993",
                    "9223372036854775807",
                    "9223372036854775808",
                    "1e9",
                    "1E400",
                    "1e-400",
                    "1e30000000",
                    "0.5",
                    "1.0",
                    "00",
                    "1_000",
                    "0x7f",
                    "NaN",
                    "Infinity",
                    "١٢");

    /** Texts that mean something to some reader, terminal, shell or spreadsheet. */
    private static final List<String> TEXTS =
            List.of(
                    "",
                    " ",
                    "\t",
                    "\u0000",
                    "\u001b[2J",
                    "\u009b2J",
                    "\u202e",
                    "\ufeff",
                    "\ud800",
                    "\udc00\ud800",
                    "😀",
                    "é",
                    "e\u0301",
                    "/",
                    "..",
                    "../../x",
                    "/etc/passwd",
                    "\\",
                    "\"",
                    "'",
                    "`",
                    "$(x)",
                    "%s%n",
                    "{{entries}}",
                    "=1+1",
                    "@x",
                    "-x",
                    "*",
                    "?",
                    "a[0]",
                    "a[-1]",
                    "a[1:0]",
                    "a[99999999999]",
                    "x0y0",
                    "x-1y0",
                    "null",
                    "true",
                    "<b>",
                    "&lt;",
                    "\r\n",
                    "\n\n",
                    "//",
                    "/*",
                    "(*",
                    "*)",
                    ";",
                    ",");

    private static final Pattern WORD =
            Pattern.compile("[A-Za-z_][A-Za-z0-9_.]*|[0-9]+|\"[^\"\\n]*\"|\\s+|.", Pattern.DOTALL);

    private static final Pattern FIELD = Pattern.compile("[^,;\\s]+");
    private static final int MANY = 3000;

    private final Random random;
    private final List<String> words;

    /**
     * @param words words of the language that is varied
     */
    Mutations(Random random, List<String> words) {
        this.random = random;
        this.words = words;
    }

    /** A changed input. */
    byte[] of(byte[] sound, byte[] other, boolean json) {
        byte[] result = sound;
        for (int i = 1 + random.nextInt(3); i > 0; i--) {
            result = once(result, other, json);
        }
        return result;
    }

    private byte[] once(byte[] sound, byte[] other, boolean json) {
        if (sound.length == 0) {
            return text().getBytes(StandardCharsets.UTF_8);
        }
        int kind = random.nextInt(json ? 10 : 7);
        return switch (kind) {
            case 0 -> bytes(sound, other);
            case 1, 2, 3 -> encode(words(decode(sound), decode(other)));
            case 4 -> encode(lines(decode(sound), decode(other)));
            case 5, 6 -> json ? encode(words(decode(sound), decode(other))) : encode(fields(sound));
            default -> tree(sound);
        };
    }

    /** Bytes as characters: every byte stays what it is. */
    private static String decode(byte[] bytes) {
        return new String(bytes, StandardCharsets.ISO_8859_1);
    }

    private static byte[] encode(String text) {
        return text.getBytes(StandardCharsets.ISO_8859_1);
    }

    private static String inUtf8(String text) {
        return decode(text.getBytes(StandardCharsets.UTF_8));
    }

    private String text() {
        return random.nextInt(3) == 0 ? pick(NUMBERS) : pick(TEXTS);
    }

    private <T> T pick(List<T> all) {
        return all.get(random.nextInt(all.size()));
    }

    private byte[] bytes(byte[] sound, byte[] other) {
        int at = random.nextInt(sound.length);
        return switch (random.nextInt(4)) {
            case 0 -> Arrays.copyOf(sound, at);
            case 1 -> {
                byte[] flipped = sound.clone();
                flipped[at] ^= (byte) (1 << random.nextInt(8));
                yield flipped;
            }
            case 2 -> {
                byte[] set = sound.clone();
                set[at] = (byte) random.nextInt(256);
                yield set;
            }
            default -> {
                int length = Math.min(random.nextInt(64), other.length);
                int from = random.nextInt(other.length - length + 1);
                byte[] spliced = Arrays.copyOf(sound, sound.length + length);
                System.arraycopy(other, from, spliced, at, length);
                System.arraycopy(sound, at, spliced, at + length, sound.length - at);
                yield spliced;
            }
        };
    }

    private static List<String> split(String text) {
        return WORD.matcher(text).results().map(MatchResult::group).toList();
    }

    private String words(String text, String other) {
        List<String> all = new ArrayList<>(split(text));
        int at = random.nextInt(all.size());
        int to = Math.min(all.size(), at + 1 + random.nextInt(random.nextInt(8) == 0 ? 40 : 3));
        switch (random.nextInt(7)) {
            case 0 -> all.subList(at, to).clear();
            case 1 -> all.addAll(at, List.copyOf(all.subList(at, to)));
            case 2 -> all.set(at, pick(all));
            case 3 -> all.set(at, word(all.get(at)));
            case 4 -> all.add(at, word(""));
            case 5 -> {
                List<String> from = other.isEmpty() ? all : split(other);
                int begin = random.nextInt(from.size());
                int end = Math.min(from.size(), begin + 1 + random.nextInt(20));
                all.addAll(at, List.copyOf(from.subList(begin, end)));
            }
            default -> {
                String part = String.join("", all.subList(at, to));
                int times = random.nextInt(20) == 0 ? random.nextInt(MANY) : random.nextInt(5);
                all.set(at, part.repeat(Math.min(times, 60_000 / Math.max(1, part.length()))));
            }
        }
        return String.join("", all);
    }

    /** Another word of the same sort, most often. */
    private String word(String old) {
        boolean number = !old.isEmpty() && Character.isDigit(old.charAt(0));
        int kind = random.nextInt(4);
        if (number && kind > 0) {
            return kind == 1 ? near(old) : inUtf8(pick(NUMBERS));
        }
        return kind < 2 && !words.isEmpty() ? pick(words) : inUtf8(text());
    }

    private String near(String number) {
        try {
            return String.valueOf(Long.parseLong(number) + random.nextInt(5) - 2);
        } catch (NumberFormatException tooLong) {
            return "0";
        }
    }

    private String lines(String text, String other) {
        List<String> all = new ArrayList<>(Arrays.asList(text.split("(?<=\n)", -1)));
        String[] others = other.split("(?<=\n)", -1);
        int at = random.nextInt(all.size());
        switch (random.nextInt(5)) {
            case 0 -> all.remove(at);
            case 1 -> all.add(random.nextInt(all.size()), all.get(at));
            case 2 -> java.util.Collections.swap(all, at, random.nextInt(all.size()));
            case 3 -> all.set(at, others[random.nextInt(others.length)]);
            default -> all.add(at, others[random.nextInt(others.length)]);
        }
        return String.join("", all);
    }

    /** Replaces a field of a table, or a word between blanks, by another of it. */
    private String fields(byte[] sound) {
        String text = decode(sound);
        List<MatchResult> all = FIELD.matcher(text).results().toList();
        if (all.isEmpty()) {
            return text;
        }
        MatchResult at = pick(all);
        String with =
                switch (random.nextInt(4)) {
                    case 0 -> "";
                    case 1 -> word(at.group());
                    default -> pick(all).group();
                };
        return text.substring(0, at.start()) + with + text.substring(at.end());
    }

    /** A value of a JSON tree, and how another takes its place. */
    private record Place(JsonElement owner, String name, int index) {
        JsonElement get() {
            return owner instanceof JsonObject object
                    ? object.get(name)
                    : ((JsonArray) owner).get(index);
        }

        void set(JsonElement value) {
            if (owner instanceof JsonObject object) {
                object.add(name, value);
            } else {
                ((JsonArray) owner).set(index, value);
            }
        }
    }

    private static void collect(JsonElement of, List<Place> into) {
        if (of instanceof JsonObject object) {
            for (Map.Entry<String, JsonElement> member : object.entrySet()) {
                into.add(new Place(object, member.getKey(), -1));
                collect(member.getValue(), into);
            }
        } else if (of instanceof JsonArray array) {
            for (int i = 0; i < array.size(); i++) {
                into.add(new Place(array, "", i));
                collect(array.get(i), into);
            }
        }
    }

    private byte[] tree(byte[] sound) {
        try {
            JsonElement root = JsonParser.parseString(new String(sound, StandardCharsets.UTF_8));
            List<Place> all = new ArrayList<>();
            collect(root, all);
            if (!all.isEmpty()) {
                change(pick(all), all);
            }
            return root.toString().getBytes(StandardCharsets.UTF_8);
        } catch (JsonParseException | NumberFormatException | StackOverflowError none) {
            return bytes(sound, sound);
        }
    }

    private void change(Place at, List<Place> all) {
        JsonElement now = at.get();
        switch (random.nextInt(8)) {
            case 0 -> at.set(pick(all).get().deepCopy());
            case 1 -> at.set(sameSort(now, all));
            case 2 -> at.set(sameSort(now, all));
            case 3 -> remove(at);
            case 4 -> {
                if (at.owner() instanceof JsonArray array) {
                    array.add(now.deepCopy());
                } else {
                    ((JsonObject) at.owner()).add(pick(all).name(), now.deepCopy());
                }
            }
            case 5 -> {
                JsonElement other = pick(all).get().deepCopy();
                if (now instanceof JsonArray array) {
                    array.add(other);
                } else if (now instanceof JsonObject object) {
                    object.add(pick(all).name(), other);
                } else {
                    at.set(other);
                }
            }
            case 6 -> {
                Place other = pick(all);
                if (at.owner() instanceof JsonArray array && array.size() > 1) {
                    int place = random.nextInt(array.size());
                    JsonElement there = array.get(place);
                    array.set(place, now);
                    array.set(at.index(), there);
                } else if (now.isJsonPrimitive() && other.get().isJsonPrimitive()) {
                    at.set(other.get());
                    other.set(now);
                }
            }
            default -> at.set(new JsonPrimitive(text()));
        }
    }

    private static void remove(Place at) {
        if (at.owner() instanceof JsonObject object) {
            object.remove(at.name());
        } else {
            ((JsonArray) at.owner()).remove(at.index());
        }
    }

    private JsonElement sameSort(JsonElement now, List<Place> all) {
        if (!now.isJsonPrimitive()) {
            List<Place> alike =
                    all.stream().filter(p -> p.get().getClass() == now.getClass()).toList();
            return pick(alike).get().deepCopy();
        }
        if (now.getAsJsonPrimitive().isNumber()) {
            String number = random.nextBoolean() ? near(now.getAsString()) : pick(NUMBERS);
            try {
                return new JsonPrimitive(new java.math.BigDecimal(number));
            } catch (NumberFormatException none) {
                return new JsonPrimitive(number);
            }
        }
        List<Place> texts = all.stream().filter(p -> p.get().isJsonPrimitive()).toList();
        String old = now.getAsString();
        return switch (random.nextInt(4)) {
            case 0 -> new JsonPrimitive(old + text());
            case 1 -> new JsonPrimitive(words.isEmpty() ? text() : pick(words));
            default -> pick(texts).get();
        };
    }
}
