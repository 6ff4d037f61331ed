package padward.format.tables.csv;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Several names in one field, with {@code |} between them; a backslash makes the next character an
 * ordinary one. A field with {@code |} alone means no names.
 */
public final class Listed {
    private Listed() {}

    public static List<String> split(String field) {
        List<String> names = new ArrayList<>();
        if (field.equals("|")) {
            return names;
        }
        StringBuilder name = new StringBuilder();
        for (int i = 0; i < field.length(); i++) {
            char c = field.charAt(i);
            if (c == '\\' && i + 1 < field.length()) {
                name.append(field.charAt(++i));
            } else if (c == '|') {
                names.add(name.toString());
                name.setLength(0);
            } else {
                name.append(c);
            }
        }
        names.add(name.toString());
        return names;
    }

    public static String join(List<String> names) {
        return names.isEmpty() ? "|" : joined(names);
    }

    private static String joined(List<String> names) {
        return names.stream()
                .map(n -> n.replace("\\", "\\\\").replace("|", "\\|"))
                .collect(Collectors.joining("|"));
    }
}
