"""The rest of a day planned anew: what is past is as eaten, and as little of the rest changes as need be."""
