package padward.breakout.group;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import padward.base.BadInput;
import padward.design.Design;
import padward.design.Glob;
import padward.design.NameLookup;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;

/** Resolves the names that users give to the nets and pads of a group. */
public final class GroupNames {
    private GroupNames() {}

    /** Finds the one pad that a name refers to. */
    public interface One {
        /** The pad's index; {@link BadInput} if there is none, or more than one. */
        int pad(Design design, String name) throws BadInput;
    }

    /**
     * The nets, each once, vectors in the order of their numbers.
     *
     * @param texts names, or patterns with * and ?
     * @param source where the texts come from, for faults
     * @throws BadInput when one matches no net
     */
    public static List<Net> nets(Design design, List<String> texts, String source) throws BadInput {
        Set<Net> result = new LinkedHashSet<>();
        for (String text : texts) {
            Glob glob = Glob.of(text);
            List<Net> fitting =
                    design.nets().stream()
                            .filter(n -> n.name().equals(text) || glob.matches(n.name()))
                            .sorted(Comparator.comparing(n -> countingKey(n.name())))
                            .toList();
            if (fitting.isEmpty()
                    && NameLookup.net(design, text) instanceof NameLookup.Match.Found<Net> one) {
                fitting = List.of(one.value());
            }
            if (fitting.isEmpty()) {
                String expected = "the name of a net, or a pattern that matches some";
                throw new BadInput(source, "", expected, "“" + text + "”");
            }
            result.addAll(fitting);
        }
        return List.copyOf(result);
    }

    /**
     * The pads, each once, in the requested order; those of a header in the order of its pins.
     *
     * @param texts {@code header NAME}, {@code bank NAME}, {@code any}, names, or patterns of such
     * @param one finds the pad of a name
     * @param source where the texts come from, for faults
     * @throws BadInput when one matches no pad
     */
    public static List<Integer> pads(Design design, List<String> texts, One one, String source)
            throws BadInput {
        Set<Integer> result = new LinkedHashSet<>();
        for (String text : texts) {
            String plain = text.strip();
            if (plain.startsWith("header ") && !plain.contains(" pin ")) {
                result.addAll(onHeader(design, plain.substring(7).strip(), source));
            } else if (plain.startsWith("bank ")) {
                result.addAll(inBank(design, plain.substring(5).strip(), source));
            } else if (plain.equals("any")) {
                result.addAll(fitting(design, "*", source));
            } else if (plain.contains("*") || plain.contains("?")) {
                result.addAll(fitting(design, plain, source));
            } else {
                result.add(one.pad(design, plain));
            }
        }
        if (result.isEmpty()) {
            throw new BadInput(source, "", "at least one pad", "none");
        }
        return List.copyOf(result);
    }

    /** A sort key that orders names by their numbers: digits are padded, so that 10 follows 9. */
    private static String countingKey(String name) {
        StringBuilder key = new StringBuilder();
        for (String part : name.split("(?<=\\D)(?=\\d)|(?<=\\d)(?=\\D)")) {
            boolean number = !part.isEmpty() && Character.isDigit(part.charAt(0));
            key.append(number ? "0".repeat(Math.max(0, 12 - part.length())) + part : part);
        }
        return key.toString();
    }

    /** Pads with a name that matches a pattern, in the order of the matching names. */
    private static List<Integer> fitting(Design design, String pattern, String source)
            throws BadInput {
        record Named(int pad, String name) {}
        Glob glob = Glob.of(pattern);
        List<Named> result = new ArrayList<>();
        for (int i = 0; i < design.fabric().pads().size(); i++) {
            int pad = i;
            PadNames.namesOf(design, i).stream()
                    .filter(glob::matches)
                    .findFirst()
                    .ifPresent(n -> result.add(new Named(pad, n)));
        }
        if (result.isEmpty()) {
            String expected = "a pattern that matches some pad's name, package pin or header pin";
            throw new BadInput(source, "", expected, "“" + pattern + "”");
        }
        result.sort(Comparator.comparing(n -> countingKey(n.name())));
        List<Integer> all = result.stream().map(Named::pad).toList();
        List<Integer> offered = offered(design, all);
        // a pattern that matches nothing else asks for just these
        return offered.isEmpty() ? all : offered;
    }

    private static List<Integer> inBank(Design design, String bank, String source) throws BadInput {
        List<Integer> result = new ArrayList<>();
        for (int i = 0; i < design.fabric().pads().size(); i++) {
            if (design.fabric().pads().get(i).bank().equalsIgnoreCase(bank)) {
                result.add(i);
            }
        }
        if (result.isEmpty()) {
            throw new BadInput(source, "", "a bank that has pads", "“" + bank + "”");
        }
        return offered(design, result);
    }

    private static List<Integer> offered(Design design, List<Integer> pads) {
        return pads.stream().filter(p -> design.fabric().pads().get(p).use().isOffered()).toList();
    }

    /** The pads on a header, in the order of its pins. */
    private static List<Integer> onHeader(Design design, String header, String source)
            throws BadInput {
        record Place(int pad, String pin) {}
        List<Place> places = new ArrayList<>();
        for (PadWiring wiring : design.board().wirings()) {
            for (Attachment attached : wiring.attachments()) {
                if (attached.kind().probeable() && attached.name().equalsIgnoreCase(header)) {
                    places.add(new Place(wiring.pad(), attached.pin()));
                }
            }
        }
        if (places.isEmpty()) {
            String expected = "a header or test point of the board";
            throw new BadInput(source, "", expected, "“" + header + "”");
        }
        places.sort(Comparator.comparing(p -> countingKey(p.pin())));
        return places.stream().map(Place::pad).toList();
    }
}
