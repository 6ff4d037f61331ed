package padward.design;

import it.unimi.dsi.fastutil.ints.IntSet;

/** Which parts of a route tree serve which of its ends. */
public final class RouteTreeBranches {
    private RouteTreeBranches() {}

    /**
     * The places of a tree that serve nothing but some of its ends: every leaf below them is one of
     * these, and no other end is. A stub that ends nowhere is left as it is, and keeps what leads
     * to it. The root always stays. O(size).
     *
     * @param given vertices of the ends to be disconnected
     * @param kept vertices of the ends that stay
     * @return by place, whether it can go
     */
    public static boolean[] servingOnly(RouteTree tree, IntSet given, IntSet kept) {
        int size = tree.size();
        boolean[] needed = new boolean[size];
        boolean[] hasChild = new boolean[size];
        for (int place = size - 1; place >= 0; place--) {
            int vertex = tree.vertex(place);
            boolean stub = !hasChild[place] && !given.contains(vertex);
            needed[place] |= kept.contains(vertex) || stub;
            int parent = tree.parent(place);
            if (parent >= 0) {
                hasChild[parent] = true;
                needed[parent] |= needed[place];
            }
        }
        boolean[] result = new boolean[size];
        for (int place = 1; place < size; place++) {
            result[place] = !needed[place];
        }
        return result;
    }

    /** The tree without the given places; whatever stands below one of them goes too. O(size). */
    public static RouteTree without(RouteTree tree, boolean[] gone) {
        RouteTree.Builder builder = new RouteTree.Builder(tree.root());
        for (int place = 1; place < tree.size(); place++) {
            int parent = tree.vertex(tree.parent(place));
            if (!gone[place] && builder.contains(parent)) {
                builder.add(parent, tree.vertex(place));
            }
        }
        return builder.build();
    }
}
