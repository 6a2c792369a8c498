import re,sys,collections
# per failing case: set of labels differing
txt=open('o.txt').read()
blocks=re.split(r'\n\.\.+\n|\n(?=\.\./\.\./wt)',txt)
c=collections.Counter()
ex={}
for b in blocks:
    labs=re.findall(r'^ *"?\s*([^"\n]*?): engine',b,re.M)
    k=tuple(sorted(set(re.sub(r'\d+','N',l) for l in labs)))
    c[k]+=1; ex.setdefault(k,b)
for k,n in c.most_common(25): print(n,k[:12],len(k))
