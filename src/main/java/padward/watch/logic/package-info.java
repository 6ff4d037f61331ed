/** Logic functions, and how they become lookup tables of few inputs. */
package padward.watch.logic;
