package padward.format.netlist;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.base.BadInput;
import padward.format.source.Nearest;

/**
 * The modules of a file.
 *
 * @param file name of the file in messages
 * @param modules by name, in the file's order
 * @param stated name of the module that the file itself calls the top, or {@code ""}
 */
record Library(String file, Map<String, NetlistModule> modules, String stated) {
    Library(String file, Map<String, NetlistModule> modules, String stated) {
        this.file = file;
        this.modules = new LinkedHashMap<>(modules);
        this.stated = stated;
    }

    /** The module of that name or, where none is given, the only one that no other instantiates. */
    NetlistModule top(String wanted) throws BadInput {
        String name = wanted.isEmpty() ? stated : wanted;
        if (!name.isEmpty()) {
            NetlistModule module = modules.get(name);
            if (module == null) {
                throw new BadInput(
                        file,
                        "",
                        "a module of that name",
                        Nearest.describe(name, modules.keySet().stream()));
            }
            return module;
        }
        Set<String> used = new LinkedHashSet<>();
        modules.values().forEach(m -> m.instances.forEach(i -> used.add(i.type())));
        List<NetlistModule> tops =
                modules.values().stream().filter(m -> !used.contains(m.name)).toList();
        if (tops.size() != 1) {
            throw new BadInput(
                    BadInput.Kind.NEEDS_CHOICE,
                    file,
                    "",
                    "one module that no other instantiates",
                    tops.isEmpty()
                            ? "none"
                            : String.join(", ", tops.stream().map(m -> m.name).toList()));
        }
        return tops.get(0);
    }
}
